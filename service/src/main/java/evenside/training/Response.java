package evenside.training;

import evenside.signs.EffusionGrade;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * What the operated knee answered to training. Everything may be absent; a later entry completes an
 * earlier one.
 *
 * @param pain ratings
 * @param soreness where and when
 * @param effusion grades by the stroke test
 * @param swollenNextMorning the person's own impression, or null
 * @param extensionLossDeg extension lost against the last value, or null
 */
public record Response(
    Pain pain,
    Soreness soreness,
    Effusion effusion,
    @Nullable Boolean swollenNextMorning,
    @Nullable Double extensionLossDeg) {
  public static final Response NONE =
      new Response(Pain.NONE, Soreness.NONE, Effusion.NONE, null, null);

  /**
   * Both together; where they state the same thing, the worse holds, in whatever order they came.
   */
  public Response and(Response that) {
    return new Response(
        pain.and(that.pain),
        soreness.and(that.soreness),
        effusion.and(that.effusion),
        Worse.of(swollenNextMorning, that.swollenNextMorning),
        Worse.of(extensionLossDeg, that.extensionLossDeg));
  }

  /** Pain of the knee, 0 to 10, except {@code muscleWorst}, which is of a muscle. */
  public record Pain(
      @Nullable Integer before,
      @Nullable Integer worst,
      @Nullable Integer afterOneHour,
      @Nullable Integer nextMorning,
      @Nullable Integer atRest,
      @Nullable Integer muscleWorst) {
    static final Pain NONE = new Pain(null, null, null, null, null, null);

    Pain and(Pain that) {
      return new Pain(
          Worse.of(before, that.before),
          Worse.of(worst, that.worst),
          Worse.of(afterOneHour, that.afterOneHour),
          Worse.of(nextMorning, that.nextMorning),
          Worse.of(atRest, that.atRest),
          Worse.of(muscleWorst, that.muscleWorst));
    }
  }

  /**
   * Soreness.
   *
   * @param sites {@code knee}, {@code graft-site}, {@code muscle}; empty if not stated
   * @param warmUp what became of soreness in the warm-up, or null
   * @param afterOneHour or null
   * @param nextDay or null
   */
  public record Soreness(
      Set<String> sites,
      @Nullable WarmUp warmUp,
      @Nullable Boolean afterOneHour,
      @Nullable Boolean nextDay) {
    static final Soreness NONE = new Soreness(Set.of(), null, null, null);

    public Soreness {
      sites = Set.copyOf(sites);
    }

    /** True if only a muscle is sore, which is no soreness of the knee. */
    public boolean ofMuscleOnly() {
      return sites.equals(Set.of("muscle"));
    }

    Soreness and(Soreness that) {
      Set<String> all = new TreeSet<>(sites);
      all.addAll(that.sites);
      return new Soreness(
          all,
          Worse.of(warmUp, that.warmUp),
          Worse.of(afterOneHour, that.afterOneHour),
          Worse.of(nextDay, that.nextDay));
    }
  }

  /** What became of soreness in the warm-up, in ascending order of concern. */
  public enum WarmUp {
    NONE,
    GONE,
    RETURNED,
    CONTINUED
  }

  /**
   * Effusion by the stroke test.
   *
   * @param usual the grade that the clinic states as usual, or null
   * @param before before training, or null
   * @param after after training, or null
   * @param nextMorning the next morning, or null
   */
  public record Effusion(
      @Nullable EffusionGrade usual,
      @Nullable EffusionGrade before,
      @Nullable EffusionGrade after,
      @Nullable EffusionGrade nextMorning) {
    public static final Effusion NONE = new Effusion(null, null, null, null);

    /** The higher of the grades from after the training on, or null. */
    public @Nullable EffusionGrade worst() {
      return Worse.of(after, nextMorning);
    }

    /** The newest grade from after the training on, or null. */
    public @Nullable EffusionGrade now() {
      return nextMorning == null ? after : nextMorning;
    }

    Effusion and(Effusion that) {
      return new Effusion(
          // What a rise is counted from: the lower one is the more cautious.
          lower(usual, that.usual),
          lower(before, that.before),
          Worse.of(after, that.after),
          Worse.of(nextMorning, that.nextMorning));
    }

    private static @Nullable EffusionGrade lower(
        @Nullable EffusionGrade a, @Nullable EffusionGrade b) {
      return Worse.of(a, b, (x, y) -> x.compareTo(y) <= 0 ? x : y);
    }
  }
}

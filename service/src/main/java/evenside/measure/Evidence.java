package evenside.measure;

import evenside.knee.Sex;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * All that a decision may look at, as of one date.
 *
 * @param surgeryDate day of the reconstruction
 * @param sex as the criteria use it
 * @param otherLegSound false if the other leg has a history of its own: symmetry with it can show a
 *     deficit and cannot show that there is none
 * @param asOf the date decided for
 * @param maxAgeDays results older than this do not count; null for no limit
 * @param measured what the batteries since surgery gave
 * @param gaps what they should have given and could not
 * @param training facts from the training record; empty without one
 */
public record Evidence(
    LocalDate surgeryDate,
    Sex sex,
    boolean otherLegSound,
    LocalDate asOf,
    @Nullable Integer maxAgeDays,
    List<Measured> measured,
    List<Gap> gaps,
    List<TrainingFact> training) {
  public Evidence {
    measured = List.copyOf(measured);
    gaps = List.copyOf(gaps);
    training = List.copyOf(training);
  }

  /** Without a training record. */
  public Evidence(
      LocalDate surgeryDate,
      Sex sex,
      boolean otherLegSound,
      LocalDate asOf,
      @Nullable Integer maxAgeDays,
      List<Measured> measured,
      List<Gap> gaps) {
    this(surgeryDate, sex, otherLegSound, asOf, maxAgeDays, measured, gaps, List.of());
  }

  /** The same with facts from the training record. */
  public Evidence withTraining(List<TrainingFact> facts) {
    return new Evidence(surgeryDate, sex, otherLegSound, asOf, maxAgeDays, measured, gaps, facts);
  }

  /**
   * A fact from the training record.
   *
   * @param of code of the progression or programme it is about, or empty
   */
  public Optional<TrainingFact> training(String fact, String of) {
    return training.stream()
        .filter(one -> one.fact().equals(fact) && one.of().equals(of))
        .findFirst();
  }

  /**
   * The newest day's results for one number. A newer battery that leaves the whole measure open (a
   * test that was meant to be done and was not, a questionnaire with too few answers) comes before
   * an older result: the older number no longer says how the knee is.
   */
  public Lookup newest(String measure, Aspect aspect, ProtocolRule rule) {
    List<Measured> matching =
        measured.stream()
            .filter(m -> m.aspect() == aspect && m.measure().equals(measure))
            .filter(m -> rule.accepts(m.protocol()))
            .toList();
    Optional<Instant> newest = latest(matching, Measured::performedAt);
    Optional<Gap> open = newestGap(measure, gap -> gap.aspect() == null);
    if (newest.isEmpty()) {
      return missing(measure, aspect, rule);
    }
    if (open.isPresent() && open.get().performedAt().isAfter(newest.get())) {
      return missing(open.get());
    }
    List<Measured> candidates =
        matching.stream().filter(m -> m.performedAt().equals(newest.get())).toList();
    long age = ageDays(candidates.get(0).performedOn());
    return maxAgeDays != null && age > maxAgeDays
        ? new Lookup.TooOld(candidates, age, maxAgeDays)
        : new Lookup.Found(candidates);
  }

  /** Days from a battery to the date decided for. */
  public long ageDays(LocalDate performedOn) {
    return ChronoUnit.DAYS.between(performedOn, asOf);
  }

  private Lookup missing(String measure, Aspect aspect, ProtocolRule rule) {
    Predicate<Gap> thisNumber = gap -> gap.aspect() == null || gap.aspect() == aspect;
    Optional<Gap> gap = newestGap(measure, thisNumber.and(g -> rule.accepts(g.protocol())));
    if (gap.isPresent()) {
      return missing(gap.get());
    }
    Optional<Gap> notPerformed = newestGap(measure, g -> g.reason() == Gap.Reason.NOT_PERFORMED);
    if (notPerformed.isPresent()) {
      return missing(notPerformed.get());
    }
    boolean testedOtherwise =
        measured.stream().anyMatch(m -> m.measure().equals(measure) && m.aspect() == aspect);
    return testedOtherwise
        ? new Lookup.Missing(
            Gap.Reason.OTHER_PROTOCOL, "tested, but not in the way this criterion asks for")
        : new Lookup.Missing(Gap.Reason.NOT_TESTED, "no battery holds this test");
  }

  private static Lookup missing(Gap gap) {
    return new Lookup.Missing(gap.reason(), gap.detail() + " (" + gap.performedOn() + ")");
  }

  private Optional<Gap> newestGap(String measure, Predicate<Gap> matching) {
    return gaps.stream()
        .filter(gap -> gap.measure().equals(measure))
        .filter(matching)
        .max(Comparator.comparing(Gap::performedAt));
  }

  private static <T> Optional<Instant> latest(List<T> all, Function<T, Instant> when) {
    return all.stream().map(when).filter(Objects::nonNull).max(Comparator.naturalOrder());
  }
}

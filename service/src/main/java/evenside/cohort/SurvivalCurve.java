package evenside.cohort;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.ToDoubleFunction;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * Time to an event where some people were not followed to it.
 *
 * <p>Shape: Kaplan–Meier, S(t) = Π (1 − d/n) over the event times; variance of ln(−ln S) by
 * Greenwood, {@code (Σ d/(n(n − d))) / (ln S)²}; limits {@code S^exp(± z·√var)}. The median is the
 * first time at which S is at most one half, its limits the first times at which the lower and the
 * upper limit of S are (Brookmeyer and Crowley).
 *
 * <p>Unit: days.
 *
 * <p>Not computable: no median where the curve stays above one half; no limit where its limit does.
 *
 * <p>Source: Kaplan &amp; Meier (1958), J Am Stat Assoc 53:457–481; Kalbfleisch &amp; Prentice, The
 * Statistical Analysis of Failure Time Data (log-log limits); Brookmeyer &amp; Crowley (1982),
 * Biometrics 38:29–41; held against another program.
 *
 * <p>Differs: some programs take the middle where the curve is exactly one half for a while; here
 * it is the first day by which half had the event.
 *
 * @param steps the event times in order
 * @param events people with the event
 * @param censored people without, as far as they were followed
 */
public record SurvivalCurve(List<Step> steps, int events, int censored) {
  /**
   * One half, and a hair: S is a product of quotients, and the double of one that is a half on
   * paper can lie above it, as (23/24)·(22/23)···(12/13) does.
   */
  private static final double HALF = 0.5 + 1e-9;

  public SurvivalCurve {
    steps = List.copyOf(steps);
  }

  /**
   * One person.
   *
   * @param days from start to the event, or to the last day followed; not negative
   * @param event true if the event happened then
   */
  public record Followed(int days, boolean event) {
    public Followed {
      if (days < 0) {
        throw new IllegalArgumentException("days " + days + " is negative");
      }
    }
  }

  /**
   * The curve after an event time.
   *
   * @param days the event time
   * @param survival share without the event so far, 0 to 1
   * @param low lower limit
   * @param high upper limit
   */
  public record Step(int days, double survival, double low, double high) {}

  /** The curve of these people. */
  public static SurvivalCurve of(List<Followed> people) {
    List<Followed> ordered = new ArrayList<>(people);
    ordered.sort(Comparator.comparingInt(Followed::days));
    List<Step> steps = new ArrayList<>();
    double survival = 1;
    double greenwood = 0;
    int at = 0;
    while (at < ordered.size()) {
      int days = ordered.get(at).days();
      int atRisk = ordered.size() - at;
      int events = 0;
      for (; at < ordered.size() && ordered.get(at).days() == days; at++) {
        events += ordered.get(at).event() ? 1 : 0;
      }
      if (events > 0) {
        survival *= 1 - (double) events / atRisk;
        greenwood += (double) events / ((double) atRisk * (atRisk - events));
        steps.add(step(days, survival, greenwood));
      }
    }
    int all = (int) people.stream().filter(Followed::event).count();
    return new SurvivalCurve(steps, all, people.size() - all);
  }

  private static Step step(int days, double survival, double greenwood) {
    if (survival <= 0) {
      return new Step(days, 0, 0, 1); // The limits are undefined here.
    }
    double z = new NormalDistribution().inverseCumulativeProbability((1 + Share.LEVEL) / 2);
    double half = z * Math.sqrt(greenwood) / Math.abs(Math.log(survival));
    return new Step(
        days, survival, Math.pow(survival, Math.exp(half)), Math.pow(survival, Math.exp(-half)));
  }

  public OptionalInt median() {
    return firstHalf(Step::survival);
  }

  public OptionalInt medianLow() {
    return firstHalf(Step::low);
  }

  /** Empty where too few were followed long enough. */
  public OptionalInt medianHigh() {
    return firstHalf(Step::high);
  }

  private OptionalInt firstHalf(ToDoubleFunction<Step> curve) {
    return steps.stream()
        .filter(step -> curve.applyAsDouble(step) <= HALF)
        .mapToInt(Step::days)
        .findFirst();
  }
}

package evenside.trend;

import evenside.measure.MeasurementError;
import evenside.quantity.Decimals;

/**
 * The difference between two readings of one series, against the measurement error of the test.
 *
 * <p>Shape: reliable if {@code |later - earlier| > z * sqrt(sem(earlier)² + sem(later)²)}, which is
 * z·√2·SEM where the error does not depend on the value.
 *
 * <p>Unit: that of the series.
 *
 * <p>Not computable: never; where the error is a percentage and both readings are zero, the change
 * and its index are zero.
 *
 * <p>Error: the published SEM of the test, with its z; of the population it was measured on.
 *
 * <p>Source: Jacobson &amp; Truax (1991), J Consult Clin Psychol 59:12–19 (reliable change index,
 * from memory); Weir (2005), J Strength Cond Res 19:231–240 (minimal difference, from memory).
 *
 * <p>Differs: for three readings or more the slope is the better question, as each further look is
 * one more chance of a false change: {@link Slope}.
 *
 * @param difference later minus earlier
 * @param smallest the change that would exceed the error, at the z of the error
 * @param index difference in standard errors of a difference
 */
public record Change(double difference, double smallest, double index) {

  /** Holds two readings against the error of their test. */
  public static Change between(double earlier, double later, MeasurementError error) {
    double standardError = Math.hypot(error.semAt(earlier), error.semAt(later));
    double difference = later - earlier;
    return new Change(
        Decimals.exact(difference),
        Decimals.exact(error.z() * standardError),
        Decimals.exact(difference == 0 ? 0 : difference / standardError));
  }

  /** True if the change is larger than the error explains. */
  public boolean reliable() {
    return Math.abs(difference) > smallest;
  }
}

package evenside.criteria;

import evenside.measure.MeasurementError;
import evenside.quantity.Decimals;
import evenside.quantity.Quantity;

/**
 * The published error of a test around one reading. Information; it never changes an outcome.
 *
 * <p>Shape: value ± z × SEM; without √2, which belongs to the difference of two readings.
 *
 * <p>Source: that of {@link MeasurementError}.
 *
 * @param error the published error
 * @param valueUnit unit of the value and of the band
 * @param sem standard error at the value, in the unit of the value
 * @param low value − z × SEM
 * @param high value + z × SEM
 * @param boundWithin true if the bound lies inside the band
 * @param clearAt the reading from which the bound lies outside the band, on the meeting side
 */
public record ErrorBand(
    MeasurementError error,
    String valueUnit,
    double sem,
    double low,
    double high,
    boolean boundWithin,
    double clearAt) {

  static ErrorBand of(MeasurementError error, Quantity seen, Comparator comparator, double bound) {
    double value = seen.value();
    double half = error.halfWidth(value);
    return new ErrorBand(
        error,
        seen.unit(),
        Decimals.exact(error.semAt(value)),
        Decimals.exact(value - half),
        Decimals.exact(value + half),
        Math.abs(value - bound) <= half,
        Decimals.exact(error.clearOf(bound, comparator.upward())));
  }
}

package evenside.measure;

import org.jspecify.annotations.Nullable;

/**
 * How far a test may be off, as published.
 *
 * <p>Shape: one reading ± z × SEM, a change of the same person z × √2 × SEM ({@code trend.Change}).
 * Where the error is a percentage, SEM is that share of the reading.
 *
 * <p>Unit: as given, or percent of the value.
 *
 * <p>Source: Weir (2005), J Strength Cond Res 19:231–240, read in the abstract, formulas from
 * memory; Reid (2007), Phys Ther 87:337–349, whose printed errors and changes fit them.
 *
 * <p>Differs: a published change may have another z than the band; each names its own.
 *
 * @param measure code of the measure
 * @param aspect the number the error belongs to
 * @param unit unit of the error
 * @param sem standard error of measurement
 * @param relative true if the error is a percentage of the value
 * @param z quantile used for the band around one reading
 * @param mode mode of testing it was measured for, or null for any
 * @param speed deg/s it was measured at, or null for any
 * @param aggregation how trials became one score in the study, or null if not known
 * @param population people it was measured on
 * @param source citation
 * @param verified true if the figure was read in its source
 */
public record MeasurementError(
    String measure,
    Aspect aspect,
    String unit,
    double sem,
    boolean relative,
    double z,
    @Nullable String mode,
    @Nullable Double speed,
    @Nullable Aggregation aggregation,
    String population,
    String source,
    boolean verified) {
  public MeasurementError {
    if (!(sem >= 0) || !(z >= 0) || (relative && z * sem >= 100)) {
      throw new IllegalArgumentException("SEM " + sem + " with z " + z + " is no usable error");
    }
  }

  /** Half the width of the band around one reading: z × SEM, in the unit of the value. */
  public double halfWidth(double value) {
    return z * semAt(value);
  }

  /** The standard error at a value, in the unit of the value. */
  public double semAt(double value) {
    return relative ? Math.abs(value) * sem / 100 : sem;
  }

  /**
   * The reading above or below a bound, from which on its band leaves the bound out: bound ± z ×
   * SEM; where the error is a percentage p of the reading itself, bound / (1 ∓ z × p / 100).
   */
  public double clearOf(double bound, boolean above) {
    double sign = above ? 1 : -1;
    return relative ? bound / (1 - sign * z * sem / 100) : bound + sign * z * sem;
  }

  boolean describes(Aspect wanted, Protocol protocol) {
    return aspect == wanted
        && (mode == null || mode.equals(protocol.terms().get(Protocol.MODE)))
        && (speed == null || speed.equals(protocol.terms().get(Protocol.SPEED)));
  }
}

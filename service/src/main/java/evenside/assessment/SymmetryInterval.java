package evenside.assessment;

import evenside.measure.MeasurementError;
import evenside.symmetry.Interval;
import org.jspecify.annotations.Nullable;

/**
 * How far a limb symmetry index may be off. Information; no outcome depends on it.
 *
 * @param method code of the way it was worked out
 * @param basis what it rests on
 * @param interval in percent
 * @param z quantile used, of the normal distribution or of Student's t
 * @param rho correlation of the two legs' errors it was worked out with, or null where the error is
 *     that of the index itself
 * @param error the published error, or null where it rests on the trials
 */
public record SymmetryInterval(
    String method,
    Basis basis,
    Interval interval,
    double z,
    @Nullable Double rho,
    @Nullable MeasurementError error) {

  /** What an interval rests on. */
  public enum Basis {
    /** A published error of the index itself. */
    INDEX_ERROR("published-error-of-the-index"),
    /** A published error of one leg's score. */
    SCORE_ERROR("published-error-of-the-score"),
    /** The trials of this day, which understate the error from day to day. */
    TRIALS("trials-within-day");

    private final String code;

    Basis(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }
  }
}

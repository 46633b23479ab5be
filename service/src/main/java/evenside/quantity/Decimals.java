package evenside.quantity;

import java.math.BigDecimal;
import java.math.MathContext;

/**
 * Holds derived numbers to nine decimal places.
 *
 * <p>Why: criteria are decimal, doubles are binary. 100 × 161.1 / 179 is 90 on paper; a chain of
 * binary operations may give 89.99999999999999 and turn a criterion. Inputs carry at most six
 * decimals and results lie below a million, so nine places keep every distinction an input can make
 * and give back the nearest double of the decimal on paper. This is no rounding in the trade's
 * sense: 89.956 stays 89.956.
 */
public final class Decimals {
  /** Most decimal places an input may carry. */
  public static final int INPUT_PLACES = 6;

  private static final double SCALE = 1e9;
  private static final double LARGEST = 1e6;

  /** Every decimal of this many digits has a double of its own. */
  private static final MathContext DOUBLE_DIGITS = new MathContext(15);

  private Decimals() {}

  /**
   * The nearest double of the value's first nine decimals.
   *
   * @throws IllegalArgumentException if the value is not finite
   */
  public static double exact(double value) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value " + value + " is not finite");
    }
    // Dividing by a power of ten that a double holds exactly is correctly rounded.
    return Math.abs(value) < LARGEST ? Math.rint(value * SCALE) / SCALE + 0.0 : value;
  }

  /**
   * The nearest double of the value's first 15 significant digits, for a number that is divided
   * again later. Nine decimals would be too few for it: two means of 2.03333… s and 1.83 s held to
   * nine decimals give a symmetry of 90.000000015 where it is 90 on paper.
   *
   * @throws IllegalArgumentException if the value is not finite
   */
  public static double intermediate(double value) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value " + value + " is not finite");
    }
    return BigDecimal.valueOf(value).round(DOUBLE_DIGITS).doubleValue();
  }
}

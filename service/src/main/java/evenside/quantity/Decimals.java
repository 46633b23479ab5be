package evenside.quantity;

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
}

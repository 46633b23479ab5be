package evenside.document;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * A double as ECMAScript prints it: the fewest digits that read back as the same double.
 *
 * <p>Why not {@link Double#toString}: on Java 17 it prints too many digits for some numbers (2e23).
 * What it prints with at most 15 digits is right, since two decimals of that length never meet in
 * one normal double; longer texts and subnormal numbers are searched for a shorter one.
 *
 * <p>Source: RFC 8785 section 3.2.2.3; ECMA-262 Number::toString.
 */
final class CanonicalNumber {
  private static final int SURE_DIGITS = 15;
  private static final int MOST_DIGITS = 17;
  private static final double LARGEST_EXACT = 9_007_199_254_740_992.0;

  private CanonicalNumber() {}

  /**
   * The shortest text of a number.
   *
   * @throws IllegalArgumentException if the number is not finite
   */
  static String text(double number) {
    if (!Double.isFinite(number)) {
      throw new IllegalArgumentException(number + " is no JSON number");
    }
    if (number == Math.rint(number) && Math.abs(number) < LARGEST_EXACT) {
      return Long.toString((long) number);
    }
    String printed = Double.toString(number);
    if (printed.length() <= SURE_DIGITS + 1 && printed.indexOf('E') < 0) {
      return printed; // at most so many digits and the point, where ECMAScript puts it too
    }
    return (number < 0 ? "-" : "") + plain(shortest(Math.abs(number)));
  }

  private static BigDecimal shortest(double number) {
    BigDecimal printed = new BigDecimal(Double.toString(number)).stripTrailingZeros();
    boolean normal = number >= Double.MIN_NORMAL;
    if (normal && printed.precision() <= SURE_DIGITS) {
      return printed;
    }
    BigDecimal exact = new BigDecimal(number);
    for (int digits = normal ? SURE_DIGITS : 1; digits <= MOST_DIGITS; digits++) {
      BigDecimal shorter = exact.round(new MathContext(digits, RoundingMode.HALF_EVEN));
      if (shorter.doubleValue() == number) {
        return shorter.stripTrailingZeros();
      }
    }
    throw new IllegalStateException("17 digits always hold a double: " + number);
  }

  /** Digits with the decimal point where ECMAScript puts it. */
  private static String plain(BigDecimal number) {
    String digits = number.unscaledValue().toString();
    int point = digits.length() - number.scale();
    if (point > 21 || point < -5) {
      return scientific(digits, point - 1);
    }
    if (point <= 0) {
      return "0." + "0".repeat(-point) + digits;
    }
    return point >= digits.length()
        ? digits + "0".repeat(point - digits.length())
        : digits.substring(0, point) + "." + digits.substring(point);
  }

  private static String scientific(String digits, int exponent) {
    String fraction = digits.length() == 1 ? "" : "." + digits.substring(1);
    return digits.charAt(0) + fraction + "e" + (exponent < 0 ? "" : "+") + exponent;
  }
}

package evenside.document;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * A double as ECMAScript prints it: the fewest digits that read back as the same double.
 *
 * <p>Two short ways. Whole numbers are written as such. A number of up to nine decimals below a
 * million is its billionfold with a point: if that, divided again, gives the number, then those at
 * most 15 digits read back as it, and no other decimal of that length does, since two of them never
 * meet in one normal double. Without the zeros at their end they are the fewest.
 *
 * <p>Why not {@link Double#toString}: on Java 17 it prints too many digits for some numbers (2e23).
 * What it prints with at most 15 digits is right, as above; longer texts and subnormal numbers are
 * searched for a shorter one.
 *
 * <p>Source: RFC 8785 section 3.2.2.3; ECMA-262 Number::toString.
 */
final class CanonicalNumber {
  /** Bytes that the longest number takes: sign, 17 digits, point, leading zeros or exponent. */
  static final int LONGEST = 25;

  private static final int SURE_DIGITS = 15;
  private static final int MOST_DIGITS = 17;
  private static final double LARGEST_EXACT = 9_007_199_254_740_992.0;

  private static final int DECIMALS = 9;
  private static final long BILLION = 1_000_000_000;

  /** Below this, with its billionfold, a number has at most 15 digits. */
  private static final double SHORT_BELOW = 1e6;

  /** ECMAScript writes smaller ones with an exponent. */
  private static final double SHORT_FROM = 1e-6;

  private CanonicalNumber() {}

  /**
   * Writes the shortest text of a number into an array with room for {@link #LONGEST} bytes.
   *
   * @return the place behind it
   * @throws IllegalArgumentException if the number is not finite
   */
  static int write(double number, byte[] to, int at) {
    if (number == Math.rint(number) && Math.abs(number) < LARGEST_EXACT) {
      return whole((long) number, to, at);
    }
    double size = Math.abs(number);
    if (size >= SHORT_FROM && size < SHORT_BELOW) {
      long billionths = (long) Math.rint(size * BILLION);
      if ((double) billionths / BILLION == size) {
        return decimal(number < 0, billionths, to, at);
      }
    }
    return any(number, to, at);
  }

  private static int whole(long number, byte[] to, int from) {
    int at = from;
    if (number < 0) {
      to[at++] = '-';
    }
    long size = Math.abs(number);
    return digits(size, digits(size), to, at);
  }

  private static int decimal(boolean negative, long billionths, byte[] to, int from) {
    int at = from;
    if (negative) {
      to[at++] = '-';
    }
    at = whole(billionths / BILLION, to, at);
    to[at++] = '.';
    long decimals = billionths % BILLION;
    int count = DECIMALS;
    while (decimals % 10 == 0) {
      decimals /= 10;
      count--;
    }
    return digits(decimals, count, to, at);
  }

  private static int digits(long number) {
    int digits = 1;
    for (long rest = number / 10; rest > 0; rest /= 10) {
      digits++;
    }
    return digits;
  }

  /** So many digits, with zeros in front if there are fewer. */
  private static int digits(long number, int count, byte[] to, int at) {
    long rest = number;
    for (int i = at + count - 1; i >= at; i--) {
      to[i] = (byte) ('0' + rest % 10);
      rest /= 10;
    }
    return at + count;
  }

  private static int any(double number, byte[] to, int from) {
    int at = from;
    String text = text(number);
    for (int i = 0; i < text.length(); i++) {
      to[at++] = (byte) text.charAt(i);
    }
    return at;
  }

  /** Without the short ways. */
  private static String text(double number) {
    if (!Double.isFinite(number)) {
      throw new IllegalArgumentException(number + " is no JSON number");
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

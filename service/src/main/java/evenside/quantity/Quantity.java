package evenside.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A number with its unit.
 *
 * @param value finite
 * @param unit UCUM code, compared as text
 */
public record Quantity(double value, String unit) {
  /** Hundredths below this are whole numbers to a double, with six digits to spare. */
  private static final double PLAIN = 1e9;

  private static final double NO_TIE = 0.4999;

  public Quantity {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value " + value + " is not finite");
    }
  }

  @Override
  public String toString() {
    return text(value) + (unit.startsWith("{") || unit.equals("1") ? "" : " " + unit);
  }

  /** The number as people write it: at most two decimals, no trailing zeros. For texts only. */
  public static String text(double value) {
    double hundredths = Math.abs(value) * 100;
    double nearest = Math.rint(hundredths);
    // Near a tie the decimal has to be looked at, as a double lies beside it.
    return nearest < PLAIN && Math.abs(hundredths - nearest) < NO_TIE
        ? text((long) nearest, value < 0)
        : BigDecimal.valueOf(value)
            .setScale(2, RoundingMode.HALF_UP)
            .stripTrailingZeros()
            .toPlainString();
  }

  private static String text(long hundredths, boolean negative) {
    long whole = hundredths / 100;
    long rest = hundredths % 100;
    String sign = negative && hundredths > 0 ? "-" : "";
    if (rest == 0) {
      return sign + whole;
    }
    return rest % 10 == 0
        ? sign + whole + "." + rest / 10
        : sign + whole + (rest < 10 ? ".0" : ".") + rest;
  }
}

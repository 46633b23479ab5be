package evenside.quantity;

/**
 * A number with its unit.
 *
 * @param value finite
 * @param unit UCUM code, compared as text
 */
public record Quantity(double value, String unit) {
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
    String fixed =
        java.math.BigDecimal.valueOf(value)
            .setScale(2, java.math.RoundingMode.HALF_UP)
            .stripTrailingZeros()
            .toPlainString();
    return fixed;
  }
}

package evenside.load;

import evenside.quantity.Decimals;
import org.jspecify.annotations.Nullable;

/**
 * A number, or why there is none.
 *
 * @param value the number, or null
 * @param unit UCUM code; arbitrary units are an annotation in braces
 * @param reason why there is none, or null
 */
public record Figure(@Nullable Double value, String unit, @Nullable String reason) {
  /** Arbitrary units of session load. */
  public static final String AU = "{AU}";

  public static final String INCOMPLETE_WEEK = "incomplete-week";
  public static final String ZERO_VARIANCE = "zero-variance";
  public static final String ZERO_BEFORE = "zero-before";
  public static final String UNKNOWN_DAYS = "unknown-days";
  public static final String NOT_RECORDED = "not-recorded";
  public static final String NOT_ESTIMABLE = "not-estimable";

  static Figure of(double value, String unit) {
    return new Figure(Decimals.exact(value), unit, null);
  }

  static Figure none(String unit, String reason) {
    return new Figure(null, unit, reason);
  }
}

package evenside.api.page;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;

/** Numbers, units and dates as people write them. Documents keep the exact ones. */
public final class Figures {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter SHORT_DAY =
      DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("d MMMM uuuu, HH:mm 'UTC'", Locale.ENGLISH);
  private static final Pattern ISO_DAY =
      Pattern.compile("\\b[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])\\b");
  private static final int ALL_DECIMALS = 9;

  private Figures() {}

  /** A number with at most one decimal, or two if it is under ten. */
  public static String number(double value) {
    return number(value, usual(value));
  }

  /**
   * A number beside its bound: with as many decimals as it takes that a number which differs from
   * the bound does not look equal to it.
   */
  public static String beside(double value, double bound) {
    int decimals = usual(value);
    while (decimals < ALL_DECIMALS
        && value != bound
        && number(value, decimals).equals(number(bound, decimals))) {
      decimals++;
    }
    return number(value, decimals);
  }

  private static int usual(double value) {
    return Math.abs(value) < 10 ? 2 : 1;
  }

  private static String number(double value, int decimals) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    String plain = rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
    return plain.replace('-', '−');
  }

  /** A unit of UCUM as it is said, with the space before it; nothing for pure numbers. */
  public static String unit(String ucum) {
    String unit = Texts.known("unit", ucum);
    // A sign of degrees stands at its number, a unit apart from it.
    boolean sign = unit.startsWith("°") && !unit.endsWith("C");
    return unit.isEmpty() || sign ? unit : "\u00a0" + unit;
  }

  /** A number and its unit. */
  public static String quantity(double value, String ucum) {
    return number(value) + unit(ucum);
  }

  /** A value as documents hold it: a quantity, a grade or a yes/no. */
  public static String value(JsonNode value) {
    if (value.isObject()) {
      return quantity(value.path("value").asDouble(), value.path("unit").asString(""));
    }
    if (value.isBoolean()) {
      return Texts.text(value.asBoolean() ? "value.yes" : "value.no");
    }
    return value.isNumber() ? number(value.asDouble()) : Texts.known("grade", value.asString(""));
  }

  /** A day of the calendar, {@code 2026-11-25}, in words; what is no day stays as it is. */
  public static String day(String iso) {
    return iso.length() == 10 ? LocalDate.parse(iso).format(DAY) : iso;
  }

  /** The same with the month cut short. */
  public static String shortDay(String iso) {
    return iso.length() == 10 ? LocalDate.parse(iso).format(SHORT_DAY) : iso;
  }

  /** A sentence of a document with its days in words. */
  public static String withDays(String sentence) {
    return ISO_DAY.matcher(sentence).replaceAll(found -> shortDay(found.group()));
  }

  /** A moment, to the minute. */
  public static String moment(String iso) {
    return Instant.parse(iso).atOffset(ZoneOffset.UTC).format(MINUTE);
  }

  /** The day of a moment on the calendar it was written in. */
  public static String dayOf(String isoWithOffset) {
    return OffsetDateTime.parse(isoWithOffset).toLocalDate().format(DAY);
  }
}

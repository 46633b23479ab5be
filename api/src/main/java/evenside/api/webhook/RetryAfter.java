package evenside.api.webhook;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.temporal.ChronoField;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * How long a receiver asks to be left alone: seconds, or one of the three forms of an HTTP date
 * (RFC 9110, sections 10.2.3 and 5.6.7). What is neither asks for nothing.
 */
final class RetryAfter {
  static final String HEADER = "Retry-After";

  /** A receiver that asks for more is tried after this all the same; a decision is worth it. */
  static final Duration LONGEST = Duration.ofDays(1);

  private static final int MOST_DIGITS = 9;

  private RetryAfter() {}

  /**
   * The pause asked for, from zero to {@link #LONGEST}.
   *
   * @param value of the header
   * @param now by our clock, which a date is held against
   */
  static Optional<Duration> of(String value, Instant now) {
    String text = value.strip();
    if (text.matches("[0-9]+")) {
      String digits = text.replaceFirst("^0+(?=.)", "");
      return Optional.of(
          digits.length() > MOST_DIGITS
              ? LONGEST
              : bounded(Duration.ofSeconds(Long.parseLong(digits))));
    }
    return date(text, now).map(then -> bounded(Duration.between(now, then)));
  }

  private static Duration bounded(Duration asked) {
    if (asked.isNegative()) {
      return Duration.ZERO;
    }
    return asked.compareTo(LONGEST) > 0 ? LONGEST : asked;
  }

  private static Optional<Instant> date(String text, Instant now) {
    for (DateTimeFormatter form : forms(now)) {
      try {
        return Optional.of(LocalDateTime.parse(text, form).toInstant(ZoneOffset.UTC));
      } catch (DateTimeException e) {
        // Not in this form; perhaps in the next.
      }
    }
    return Optional.empty();
  }

  /** A year of two digits is no more than 50 years ahead. */
  private static List<DateTimeFormatter> forms(Instant now) {
    LocalDate oldest = LocalDate.ofInstant(now, ZoneOffset.UTC).minusYears(49);
    return List.of(
        form("EEE, dd MMM yyyy HH:mm:ss 'GMT'"),
        new DateTimeFormatterBuilder()
            .appendPattern("EEEE, dd-MMM-")
            .appendValueReduced(ChronoField.YEAR, 2, 2, oldest)
            .appendPattern(" HH:mm:ss 'GMT'")
            .toFormatter(Locale.US),
        form("EEE MMM ppd HH:mm:ss yyyy"));
  }

  private static DateTimeFormatter form(String pattern) {
    return DateTimeFormatter.ofPattern(pattern, Locale.US);
  }
}

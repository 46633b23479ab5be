package evenside.api.resource;

import evenside.api.http.Call;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.Collection;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Pattern;

/** Reads query parameters; each failure names the parameter and what it takes. */
final class Parameters {
  private static final Pattern NUMBER = Pattern.compile("[0-9]{1,9}");
  private static final Pattern INSTANT =
      Pattern.compile(
          "[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\\.[0-9]{1,9})?(Z|[+-][0-9]{2}:[0-9]{2})");

  private static final Pattern DATE = Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}");

  private static final Pattern UUID =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
  private static final String UUID_FORM = "the id of a decision";

  private Parameters() {}

  static int number(Call call, String name, int min, int max, int otherwise) {
    Optional<String> text = call.query(name);
    if (text.isEmpty()) {
      return otherwise;
    }
    boolean number = NUMBER.matcher(text.get()).matches();
    int value = number ? Integer.parseInt(text.get()) : min - 1;
    if (value < min || value > max) {
      throw bad(name, "a whole number from " + min + " to " + max);
    }
    return value;
  }

  /** A whole number from 0 on, if it was sent. */
  static OptionalLong optionalNumber(Call call, String name) {
    Optional<String> text = call.query(name);
    if (text.isPresent() && !NUMBER.matcher(text.get()).matches()) {
      throw bad(name, "a whole number of at most nine digits");
    }
    return text.isEmpty() ? OptionalLong.empty() : OptionalLong.of(Long.parseLong(text.get()));
  }

  /** A number of entries, which must be sent. */
  static long size(Call call, String name) {
    long size = optionalNumber(call, name).orElse(0);
    if (size < 1) {
      throw bad(name, "a number of entries from 1 on, and must be sent");
    }
    return size;
  }

  /** An identifier, which must be sent. */
  static String uuid(Call call, String name) {
    return optionalUuid(call, name).orElseThrow(() -> bad(name, UUID_FORM + ", and must be sent"));
  }

  static Optional<String> optionalUuid(Call call, String name) {
    return matching(call, name, UUID, UUID_FORM);
  }

  static Optional<String> matching(Call call, String name, Pattern form, String what) {
    Optional<String> text = call.query(name);
    if (text.isPresent() && !form.matcher(text.get()).matches()) {
      throw bad(name, what);
    }
    return text;
  }

  static Optional<String> oneOf(Call call, String name, Collection<String> values) {
    Optional<String> text = call.query(name);
    if (text.isPresent() && !values.contains(text.get())) {
      throw bad(name, "one of " + String.join(", ", values));
    }
    return text;
  }

  static Optional<Instant> instant(Call call, String name) {
    return call.query(name).map(text -> instant(name, text));
  }

  private static Instant instant(String name, String text) {
    try {
      if (INSTANT.matcher(text).matches()) {
        return OffsetDateTime.parse(text).toInstant();
      }
    } catch (DateTimeParseException e) {
      // Falls through to the refusal: the 30th of February has the form of a date.
    }
    throw bad(
        name, "a date and time with its offset, as in 2026-03-01T00:00:00Z, with + sent as %2B");
  }

  static Optional<LocalDate> date(Call call, String name) {
    return call.query(name).map(text -> date(name, text));
  }

  private static LocalDate date(String name, String text) {
    try {
      if (DATE.matcher(text).matches()) {
        return LocalDate.parse(text);
      }
    } catch (DateTimeParseException e) {
      // Falls through to the refusal, like an instant.
    }
    throw bad(name, "a day of the calendar, as in 2026-03-01");
  }

  static RuntimeException bad(String name, String what) {
    return Problem.of(
            ProblemType.BAD_PARAMETER, "The query parameter " + name + " takes " + what + ".")
        .asException();
  }
}

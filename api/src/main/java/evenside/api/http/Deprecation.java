package evenside.api.http;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/**
 * That a route should no longer be used, and when it goes. The two dates have different forms on
 * the wire: RFC 9745 takes a Structured Field date, RFC 8594 an HTTP date.
 *
 * @param since when it was, or will be, deprecated
 * @param sunset when it may stop to answer; not before it is deprecated (RFC 9745, section 4)
 * @param notice where what to do instead is described
 */
public record Deprecation(Instant since, Instant sunset, String notice) {
  private static final DateTimeFormatter HTTP_DATE =
      DateTimeFormatter.ofPattern("EEE, dd MMM yyyy HH:mm:ss 'GMT'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  /** Checks the order of the dates. */
  public Deprecation {
    if (sunset.isBefore(since)) {
      throw new IllegalArgumentException(
          "a route must not go (" + sunset + ") before it is deprecated (" + since + ")");
    }
  }

  /** The value of {@code Deprecation}, for example {@code @1688169599}. */
  String deprecationHeader() {
    return "@" + since.getEpochSecond();
  }

  /** The value of {@code Sunset}, for example {@code Sun, 11 Nov 2018 23:59:59 GMT}. */
  String sunsetHeader() {
    return HTTP_DATE.format(sunset);
  }

  /** The value of {@code Link}. */
  String linkHeader() {
    return "<" + notice + ">; rel=\"deprecation\"; type=\"text/html\"";
  }
}

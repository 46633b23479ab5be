package evenside.api.trace;

import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ThreadLocalRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The place of our work in a trace across systems. It holds random numbers only, nothing about a
 * person; a caller's {@code tracestate} is free text and goes no further.
 *
 * <p>Source: W3C Trace Context, Recommendation of 23 November 2021, sections 3.2 and 4.3.
 *
 * @param traceId the whole trace, 32 lower-case hexadecimal digits, not all zero
 * @param spanId our part of it, 16 lower-case hexadecimal digits, not all zero
 * @param sampled whether the caller records this trace
 */
public record TraceContext(String traceId, String spanId, boolean sampled) {
  /** The header's name. */
  public static final String HEADER = "traceparent";

  private static final Pattern PARENT =
      Pattern.compile("([0-9a-f]{2})-([0-9a-f]{32})-([0-9a-f]{16})-([0-9a-f]{2})(-.*)?");
  private static final String INVALID_VERSION = "ff";
  private static final String FIRST_VERSION = "00";

  /**
   * Our place in the trace that a request carries; in a new one if it carries none, or none that
   * can be understood.
   *
   * @param headers every {@code traceparent} header of the request
   */
  public static TraceContext of(List<String> headers) {
    return Optional.of(headers)
        .filter(all -> all.size() == 1)
        .flatMap(all -> parent(all.get(0).strip()))
        .map(parent -> new TraceContext(parent.traceId(), random(8), parent.sampled()))
        .orElseGet(() -> new TraceContext(random(16), random(8), false));
  }

  /** The caller's own place, if the header is valid. */
  static Optional<TraceContext> parent(String header) {
    Matcher parts = PARENT.matcher(header);
    if (!parts.matches()
        || parts.group(1).equals(INVALID_VERSION)
        // A later version may have more parts; this one may not.
        || (parts.group(1).equals(FIRST_VERSION) && parts.group(5) != null)
        || isZero(parts.group(2))
        || isZero(parts.group(3))) {
      return Optional.empty();
    }
    boolean sampled = (HexFormat.fromHexDigits(parts.group(4)) & 1) == 1;
    return Optional.of(new TraceContext(parts.group(2), parts.group(3), sampled));
  }

  /** The header for a call that we make on behalf of this work. */
  public String header() {
    return FIRST_VERSION + "-" + traceId + "-" + spanId + (sampled ? "-01" : "-00");
  }

  private static boolean isZero(String digits) {
    return digits.chars().allMatch(digit -> digit == '0');
  }

  private static String random(int bytes) {
    byte[] id = new byte[bytes];
    do {
      ThreadLocalRandom.current().nextBytes(id);
    } while (isZero(HexFormat.of().formatHex(id)));
    return HexFormat.of().formatHex(id);
  }
}

package evenside.api.log;

import java.util.List;

/**
 * The fields that a line of the log may hold beside time, level, logger and sentence. The JSON form
 * drops every other.
 */
public final class LogFields {
  /** HTTP method. */
  public static final String METHOD = "method";

  /** Path template; never a path. */
  public static final String ROUTE = "route";

  /** HTTP status. */
  public static final String STATUS = "status";

  /** Whole milliseconds from the first byte of a request to the last of its answer. */
  public static final String DURATION = "durationMs";

  /** Id of the request, also in its answer. */
  public static final String REQUEST = "requestId";

  /** Trace that the request belongs to (W3C Trace Context). */
  public static final String TRACE = "traceId";

  /** Who asked, as registered. */
  public static final String CLIENT = "clientId";

  /** Id of the record that was read or made, given out by the service itself. */
  public static final String RESOURCE = "resourceId";

  /** Kind of problem and codes of its faults. */
  public static final String FAULTS = "faults";

  /** All of them, in the order of a line. */
  static final List<String> ALL =
      List.of(METHOD, ROUTE, STATUS, DURATION, REQUEST, TRACE, CLIENT, RESOURCE, FAULTS);

  private LogFields() {}
}

package evenside.api.http;

import java.util.UUID;
import org.eclipse.jetty.server.Request;

/** Gives every request an id, for the answer, the log and the problem alike. */
public final class RequestIds {
  /** The header that tells it. */
  public static final String HEADER = "Request-Id";

  private static final String ATTRIBUTE = "evenside.request-id";

  private RequestIds() {}

  /** The id of a request; the same however often it is asked for. */
  public static String of(Request request) {
    if (request.getAttribute(ATTRIBUTE) instanceof String id) {
      return id;
    }
    String id = UUID.randomUUID().toString();
    request.setAttribute(ATTRIBUTE, id);
    return id;
  }
}

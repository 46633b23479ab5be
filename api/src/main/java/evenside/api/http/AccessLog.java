package evenside.api.http;

import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.RequestLog;
import org.eclipse.jetty.server.Response;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One line per request: method, route template, status, milliseconds, request id. Never a path, a
 * query or a value, as those can hold personal data.
 */
final class AccessLog implements RequestLog {
  static final String ROUTE = "evenside.route";
  private static final Logger LOG = LoggerFactory.getLogger("evenside.access");
  private static final Set<String> METHODS =
      Set.of("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT");

  @Override
  public void log(Request request, Response response) {
    if (LOG.isInfoEnabled()) {
      String method = METHODS.contains(request.getMethod()) ? request.getMethod() : "OTHER";
      Object route = request.getAttribute(ROUTE);
      long nanos = System.nanoTime() - request.getBeginNanoTime();
      LOG.info(
          "{} {} {} {} ms {}",
          method,
          route == null ? "-" : route,
          response.getStatus(),
          TimeUnit.NANOSECONDS.toMillis(nanos),
          RequestIds.of(request));
    }
  }
}

package evenside.api.server;

import evenside.api.http.RequestIds;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.Optional;
import java.util.regex.Pattern;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/**
 * Stands before all routes: gives the request its id, the answer its security headers, and refuses
 * what no route may see.
 */
final class Gate extends Handler.Wrapper {
  static final int MAX_HEADER_BYTES = 16 * 1024;
  private static final int MAX_URI_CHARACTERS = 4 * 1024;
  static final String URI_LIMIT =
      "The path and query may have " + MAX_URI_CHARACTERS + " characters at most.";

  /** A form of escape that the server takes and the router cannot read. */
  private static final Pattern NO_ESCAPE = Pattern.compile("%(?![0-9A-Fa-f]{2})");

  /** The router would follow it: then whoever filters by method in front would be gone around. */
  private static final String METHOD_OVERRIDE = "X-HTTP-Method-Override";

  private final HostRule hosts;
  private final Draining draining;

  Gate(HostRule hosts, Draining draining) {
    this.hosts = hosts;
    this.draining = draining;
  }

  @Override
  public boolean handle(Request request, Response response, Callback callback) throws Exception {
    addCommonHeaders(request, response);
    if (draining.begun()) {
      response.getHeaders().put("Connection", "close");
    }
    Optional<Problem> refusal = refusal(request);
    if (refusal.isPresent()) {
      ServerProblems.write(refusal.get(), request, response, callback);
      return true;
    }
    return super.handle(request, response, callback);
  }

  static void addCommonHeaders(Request request, Response response) {
    response.getHeaders().put(RequestIds.HEADER, RequestIds.of(request));
    response.getHeaders().put("X-Content-Type-Options", "nosniff");
    response
        .getHeaders()
        .put("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'");
    response.getHeaders().put("Cross-Origin-Resource-Policy", "same-origin");
  }

  private Optional<Problem> refusal(Request request) {
    HttpFields headers = request.getHeaders();
    Optional<Problem> foreign =
        hosts.refusal(headers.getValuesList("Host"), headers.getValuesList("Origin"));
    if (foreign.isPresent()) {
      return foreign;
    }
    String target = request.getHttpURI().getPathQuery();
    if (target == null || target.isEmpty()) {
      return refuse(ProblemType.BAD_REQUEST, "The request line names no path.");
    }
    if (target.length() > MAX_URI_CHARACTERS) {
      return refuse(ProblemType.URI_TOO_LONG, URI_LIMIT);
    }
    if (NO_ESCAPE.matcher(target.split("\\?", 2)[0]).find()) {
      return refuse(
          ProblemType.BAD_REQUEST,
          "The path has a percent sign without two hexadecimal digits after it.");
    }
    if (headers.contains("Sec-WebSocket-Version")) {
      return refuse(ProblemType.BAD_REQUEST, "WebSocket is not supported.");
    }
    if (headers.contains(METHOD_OVERRIDE)) {
      return refuse(
          ProblemType.BAD_REQUEST,
          METHOD_OVERRIDE + " is not taken here; send the request with the method itself.");
    }
    return Optional.empty();
  }

  private static Optional<Problem> refuse(ProblemType type, String detail) {
    return Optional.of(Problem.of(type, detail));
  }
}

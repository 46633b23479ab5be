package evenside.api.server;

import evenside.api.http.Cache;
import evenside.api.http.RequestIds;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import java.nio.ByteBuffer;
import org.eclipse.jetty.http.HttpException;
import org.eclipse.jetty.http.HttpField;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.handler.ErrorHandler;
import org.eclipse.jetty.util.Callback;
import tools.jackson.databind.json.JsonMapper;

/**
 * Answers what the server refuses before any route sees it (malformed or oversized requests), in
 * the same form as every other problem.
 */
final class ServerProblems implements Request.Handler {
  @Override
  public boolean handle(Request request, Response response, Callback callback) {
    write(problem(statusOf(request, response)), request, response, callback);
    return true;
  }

  private static int statusOf(Request request, Response response) {
    Object cause = request.getAttribute(ErrorHandler.ERROR_EXCEPTION);
    return cause instanceof HttpException refused ? refused.getCode() : response.getStatus();
  }

  private static Problem problem(int status) {
    return switch (status) {
      case 404 -> Problems.NOTHING_HERE;
      case 413 -> Problem.of(ProblemType.CONTENT_TOO_LARGE, "The body is too large.");
      case 414 -> Problem.of(ProblemType.URI_TOO_LONG, Gate.URI_LIMIT);
      case 431 ->
          Problem.of(
              ProblemType.HEADERS_TOO_LARGE,
              "The request line and headers may have " + Gate.MAX_HEADER_BYTES + " bytes at most.");
      case 501, 505 ->
          Problem.of(
              ProblemType.BAD_REQUEST, "HTTP/1.1 is spoken here, and HTTP/1.0 to older clients.");
      case 503 ->
          Problem.of(ProblemType.UNAVAILABLE, "The service is stopping.")
              .withHeader("Retry-After", "1");
      default ->
          status < 500
              ? Problem.of(ProblemType.BAD_REQUEST, "The request is not well-formed HTTP/1.1.")
              : Problem.of(ProblemType.INTERNAL, "The service failed.");
    };
  }

  /** Sends a problem from outside the routes. */
  static void write(Problem problem, Request request, Response response, Callback callback) {
    String id = RequestIds.of(request);
    byte[] body = JsonMapper.shared().writeValueAsBytes(problem.toJson(id));
    response.setStatus(problem.type().status());
    Gate.addCommonHeaders(request, response);
    response.getHeaders().put("Content-Type", Problem.MEDIA_TYPE);
    response.getHeaders().put("Cache-Control", Cache.NONE.value());
    response.getHeaders().put(new HttpField("Content-Length", Integer.toString(body.length)));
    problem.headers().forEach((name, value) -> response.getHeaders().put(name, value));
    boolean head = request.getMethod().equals("HEAD");
    response.write(true, head ? ByteBuffer.allocate(0) : ByteBuffer.wrap(body), callback);
  }
}

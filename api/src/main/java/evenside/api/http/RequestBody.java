package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import org.eclipse.jetty.http.HttpException;

/** Reads a body, and never more of it than the limit. */
final class RequestBody {
  private RequestBody() {}

  static byte[] read(HttpServletRequest request, int maxBytes) {
    if (request.getContentLengthLong() > maxBytes) {
      throw tooLarge(maxBytes);
    }
    try (InputStream in = request.getInputStream()) {
      byte[] body = in.readNBytes(maxBytes + 1);
      if (body.length > maxBytes) {
        throw tooLarge(maxBytes);
      }
      return body;
    } catch (IOException | HttpException.RuntimeException e) {
      // Wrong framing, too slow, or gone: in each case the sender's side of the exchange.
      throw Problem.of(ProblemType.BAD_REQUEST, "The body did not arrive whole.").asException();
    }
  }

  private static RuntimeException tooLarge(int maxBytes) {
    return Problem.of(
            ProblemType.CONTENT_TOO_LARGE, "A body may have " + maxBytes + " bytes at most.")
        .asException();
  }
}

package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

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
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static RuntimeException tooLarge(int maxBytes) {
    return Problem.of(
            ProblemType.CONTENT_TOO_LARGE, "A body may have " + maxBytes + " bytes at most.")
        .asException();
  }
}

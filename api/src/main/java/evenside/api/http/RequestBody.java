package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.eclipse.jetty.http.HttpException;

/** Reads a body, and never more of it than the limit. */
final class RequestBody {
  /**
   * So much of a body that is too large is read and thrown away: a client that is answered while it
   * still sends mostly sees a broken connection, and never the reason.
   */
  private static final long MAX_DRAINED = 4L << 20;

  private RequestBody() {}

  static byte[] read(HttpServletRequest request, int maxBytes) {
    long announced = request.getContentLengthLong();
    boolean waiting = request.getHeader("Expect") != null;
    if (announced > maxBytes + MAX_DRAINED || (announced > maxBytes && waiting)) {
      throw tooLarge(maxBytes);
    }
    try (InputStream in = request.getInputStream()) {
      byte[] body = in.readNBytes(maxBytes + 1);
      if (body.length > maxBytes) {
        drain(in);
        throw tooLarge(maxBytes);
      }
      return body;
    } catch (IOException | HttpException.RuntimeException e) {
      // Wrong framing, too slow, or gone: in each case the sender's side of the exchange.
      throw Problem.of(ProblemType.BAD_REQUEST, "The body did not arrive whole.").asException();
    }
  }

  /** The body as it comes; an endpoint that reads it keeps its own limits. */
  static InputStream stream(HttpServletRequest request) {
    try {
      return request.getInputStream();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void drain(InputStream in) throws IOException {
    byte[] buffer = new byte[8192];
    long drained = 0;
    for (int n = 0; n >= 0 && drained < MAX_DRAINED; n = in.read(buffer)) {
      drained += n;
    }
  }

  private static RuntimeException tooLarge(int maxBytes) {
    return Problem.of(
            ProblemType.CONTENT_TOO_LARGE, "A body may have " + maxBytes + " bytes at most.")
        .asException();
  }
}

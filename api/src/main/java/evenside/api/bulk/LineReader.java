package evenside.api.bulk;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/** Splits a body into lines as it comes (NDJSON: lines end in LF, an LF at the end may lack). */
final class LineReader {
  static final int MAX_BYTES = 64 * 1024;

  private final InputStream in;
  private int number;
  private long bytes;

  LineReader(InputStream in) {
    this.in = new BufferedInputStream(in, MAX_BYTES);
  }

  /**
   * The next line that is not empty; null at the end.
   *
   * @throws IOException if the body breaks off
   */
  @Nullable Line next() throws IOException {
    ByteArrayOutputStream line = new ByteArrayOutputStream(1024);
    boolean tooLong = false;
    while (true) {
      int next = in.read();
      if (next >= 0) {
        bytes++;
      }
      if (next == '\n' || next < 0) {
        if (next < 0 && line.size() == 0) {
          return null;
        }
        number++;
        if (!isBlank(line)) {
          return new Line(number, line.toByteArray(), tooLong);
        }
        line.reset();
      } else if (line.size() < MAX_BYTES) {
        line.write(next);
      } else {
        tooLong = true;
      }
    }
  }

  private static boolean isBlank(ByteArrayOutputStream line) {
    return line.size() == 0
        || (line.size() < 16 && line.toString(StandardCharsets.UTF_8).isBlank());
  }

  /** Bytes of the body so far. */
  long bytes() {
    return bytes;
  }
}

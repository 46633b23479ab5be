package evenside.api.http;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.zip.GZIPOutputStream;

/**
 * Answers with gzip for those who ask (RFC 9110, sections 8.4 and 12.5.3). The coded form is a
 * representation of its own, so it has a tag and a digest of its own.
 */
final class ContentCoding {
  /** Less is not worth a coding. */
  static final int LEAST_BYTES = 1024;

  static final String GZIP = "gzip";

  private ContentCoding() {}

  /** Whether a body comes in two forms. */
  static boolean varies(String mediaType, byte[] body) {
    String type = mediaType.toLowerCase(Locale.ROOT);
    boolean text =
        type.startsWith("text/")
            || type.contains("json")
            || type.contains("yaml")
            || type.contains("xml");
    return text && body.length >= LEAST_BYTES;
  }

  /** Whether the receiver takes gzip, and likes nothing better. */
  static boolean wanted(List<String> acceptEncoding) {
    Optional<Double> gzip = quality(acceptEncoding, GZIP);
    Optional<Double> any = quality(acceptEncoding, "*");
    double identity = quality(acceptEncoding, "identity").orElse(0.0);
    double coded = gzip.or(() -> any).orElse(0.0);
    return coded > 0 && coded >= identity;
  }

  private static Optional<Double> quality(List<String> acceptEncoding, String coding) {
    for (String item : String.join(",", acceptEncoding).split(",", -1)) {
      String[] parts = item.strip().split(";", -1);
      if (parts[0].strip().equalsIgnoreCase(coding)) {
        return Optional.of(MediaTypes.qualityOf(parts));
      }
    }
    return Optional.empty();
  }

  /** The coded form of a body. */
  static byte[] gzip(byte[] body) {
    ByteArrayOutputStream coded = new ByteArrayOutputStream(body.length / 4);
    try (GZIPOutputStream gzip = new GZIPOutputStream(coded)) {
      gzip.write(body);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return coded.toByteArray();
  }
}

package evenside.schemas;

import evenside.schemas.NotJson.Location;
import evenside.schemas.NotJson.Reason;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * Decodes bytes as UTF-8 (RFC 3629) and guesses nothing: a JSON text on the wire has no other form.
 */
final class StrictUtf8 {

  private StrictUtf8() {}

  static String decode(byte[] bytes, int maxBytes) {
    if (bytes.length > maxBytes) {
      throw refused(
          Reason.TOO_LARGE,
          "The body has " + bytes.length + " bytes; at most " + maxBytes + " are taken.");
    }
    if (startsWith(bytes, 0xEF, 0xBB, 0xBF)) {
      throw refused(
          Reason.BYTE_ORDER_MARK,
          "The body starts with a byte order mark; send UTF-8 without one.");
    }
    if (startsWith(bytes, 0x1F, 0x8B)) {
      throw refused(
          Reason.NOT_UTF_8,
          "The body looks compressed with gzip, and no Content-Encoding header says so. Compressed"
              + " bodies are not taken with it either; send the JSON text itself.");
    }
    if (looksWide(bytes)) {
      throw refused(Reason.NOT_UTF_8, "The body looks like UTF-16 or UTF-32; send UTF-8.");
    }
    return decodeNarrow(bytes);
  }

  private static String decodeNarrow(byte[] bytes) {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    CharBuffer text = CharBuffer.allocate(bytes.length);
    CoderResult result = decoder.decode(ByteBuffer.wrap(bytes), text, true);
    text.flip();
    if (result.isError()) {
      throw new NotJson(
          Reason.NOT_UTF_8,
          "The body is not valid UTF-8 here.",
          Optional.of(endOf(text.toString())));
    }
    return text.toString();
  }

  /**
   * A JSON text starts with ASCII characters, so a zero among its first bytes means wider units.
   */
  private static boolean looksWide(byte[] bytes) {
    for (int i = 0; i < Math.min(4, bytes.length); i++) {
      if (bytes[i] == 0) {
        return true;
      }
    }
    return startsWith(bytes, 0xFE, 0xFF) || startsWith(bytes, 0xFF, 0xFE);
  }

  private static boolean startsWith(byte[] bytes, int... start) {
    for (int i = 0; i < start.length; i++) {
      if (i >= bytes.length || (bytes[i] & 0xFF) != start[i]) {
        return false;
      }
    }
    return true;
  }

  private static Location endOf(String text) {
    int line = 1 + (int) text.chars().filter(c -> c == '\n').count();
    return new Location(line, text.length() - text.lastIndexOf('\n'));
  }

  private static NotJson refused(Reason reason, String detail) {
    return new NotJson(reason, detail, Optional.empty());
  }
}

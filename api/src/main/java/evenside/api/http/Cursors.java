package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.Base64;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Cursors of paged lists: where to go on, authenticated (HMAC-SHA-256, cut to 128 bits) together
 * with the clinic and the list it was given out for. A cursor grants nothing; it only cannot be
 * made up or carried over to another search.
 */
public final class Cursors {
  private static final int MAC_BYTES = 16;
  private static final int MAX_LENGTH = 512;

  private final SecretKeySpec key;

  /**
   * Cursors under one key.
   *
   * @param key 32 secret bytes; the same in every process that is to understand the cursors
   */
  public Cursors(byte[] key) {
    if (key.length != 32) {
      throw new IllegalArgumentException("a cursor key has 32 bytes, not " + key.length);
    }
    this.key = new SecretKeySpec(key, "HmacSHA256");
  }

  /** The cursor for going on at {@code position} in {@code list} of {@code clinic}. */
  public String write(String clinic, String list, String position) {
    byte[] text = position.getBytes(StandardCharsets.UTF_8);
    byte[] cursor = Arrays.copyOf(mac(clinic, list, position), MAC_BYTES + text.length);
    System.arraycopy(text, 0, cursor, MAC_BYTES, text.length);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(cursor);
  }

  /** The position in a cursor that was written for {@code list} of {@code clinic}. */
  public String read(String clinic, String list, String cursor) {
    byte[] bytes = decode(cursor);
    if (bytes.length > MAC_BYTES) {
      String position =
          new String(bytes, MAC_BYTES, bytes.length - MAC_BYTES, StandardCharsets.UTF_8);
      byte[] sent = Arrays.copyOf(bytes, MAC_BYTES);
      // Written anew and compared: base64 has several spellings of the same bytes.
      boolean ours =
          MessageDigest.isEqual(sent, mac(clinic, list, position))
              && cursor.equals(write(clinic, list, position));
      if (ours) {
        return position;
      }
    }
    throw Problem.of(
            ProblemType.BAD_CURSOR, "The cursor in after is not from this search, or was changed.")
        .asException();
  }

  private static byte[] decode(String cursor) {
    if (cursor.length() > MAX_LENGTH) {
      return new byte[0];
    }
    try {
      return Base64.getUrlDecoder().decode(cursor);
    } catch (IllegalArgumentException e) {
      return new byte[0];
    }
  }

  private byte[] mac(String clinic, String list, String position) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(key);
      for (String part : new String[] {clinic, list, position}) {
        byte[] text = part.getBytes(StandardCharsets.UTF_8);
        // Each part with its length, so that no two lists of parts look alike.
        mac.update(Integer.toString(text.length).getBytes(StandardCharsets.US_ASCII));
        mac.update((byte) ':');
        mac.update(text);
      }
      return Arrays.copyOf(mac.doFinal(), MAC_BYTES);
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java platform has HmacSHA256", e);
    }
  }
}

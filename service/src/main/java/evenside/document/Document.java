package evenside.document;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import tools.jackson.databind.JsonNode;

/**
 * Canonical bytes (RFC 8785) as stored, served and hashed, with their fingerprint.
 *
 * <p>Equal if the bytes are. The array is not copied: whoever holds a document must not write to
 * it.
 */
public final class Document {
  private final byte[] bytes;
  private final String sha256;

  private Document(byte[] bytes) {
    this.bytes = bytes;
    this.sha256 = sha256(bytes);
  }

  /** Takes bytes that are canonical already. */
  public static Document ofCanonical(byte[] bytes) {
    return new Document(bytes);
  }

  /** Writes a tree in canonical form. */
  public static Document of(JsonNode tree) {
    return new Document(CanonicalJson.bytes(tree));
  }

  public byte[] bytes() {
    return bytes;
  }

  /** SHA-256 of the bytes, 64 lower-case hexadecimal digits. */
  public String sha256() {
    return sha256;
  }

  /** SHA-256 of any bytes, as hexadecimal digits. */
  public static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }

  @Override
  public boolean equals(@org.jspecify.annotations.Nullable Object that) {
    return that instanceof Document document && java.util.Arrays.equals(bytes, document.bytes);
  }

  @Override
  public int hashCode() {
    return sha256.hashCode();
  }

  @Override
  public String toString() {
    return new String(bytes, java.nio.charset.StandardCharsets.UTF_8);
  }
}

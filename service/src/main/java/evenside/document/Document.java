package evenside.document;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Canonical bytes (RFC 8785) as stored, served and hashed, with their fingerprint.
 *
 * <p>Equal if the bytes are. The array is not copied: whoever holds a document must not write to
 * it.
 */
public final class Document {
  private final byte[] bytes;

  /** Worked out when asked for: two threads may both do so, and find the same. */
  private @Nullable String sha256;

  private Document(byte[] bytes) {
    this.bytes = bytes;
  }

  /** Takes bytes that are canonical already. */
  public static Document ofCanonical(byte[] bytes) {
    return new Document(bytes);
  }

  /** Writes a tree in canonical form. */
  public static Document of(JsonNode tree) {
    return new Document(CanonicalJson.bytes(tree));
  }

  /** What is written by a writer of canonical form. */
  public static Document written(Consumer<CanonicalWriter> content) {
    return new Document(CanonicalWriter.bytes(content));
  }

  public byte[] bytes() {
    return bytes;
  }

  /** SHA-256 of the bytes, 64 lower-case hexadecimal digits. */
  public String sha256() {
    String known = sha256;
    if (known == null) {
      known = sha256(bytes);
      sha256 = known;
    }
    return known;
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
  public boolean equals(@Nullable Object that) {
    return that instanceof Document document && Arrays.equals(bytes, document.bytes);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(bytes);
  }

  @Override
  public String toString() {
    return new String(bytes, java.nio.charset.StandardCharsets.UTF_8);
  }
}

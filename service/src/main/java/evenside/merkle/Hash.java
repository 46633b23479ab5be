package evenside.merkle;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.Base64;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * A SHA-256 value: 32 bytes.
 *
 * <p>Source: RFC 6962 section 2.1 for {@link #leaf} and {@link #node}; the prefixes 0x00 and 0x01
 * keep an entry from being passed off as a subtree.
 */
public final class Hash {
  /** Bytes of a hash. */
  public static final int LENGTH = 32;

  /** The root of the tree without entries: SHA-256 of nothing. */
  public static final Hash EMPTY = sha256(new byte[0]);

  private static final byte[] LEAF = {0};
  private static final byte[] NODE = {1};

  private final byte[] bytes;

  private Hash(byte[] bytes) {
    this.bytes = bytes;
  }

  /**
   * Takes the bytes of a hash.
   *
   * @throws IllegalArgumentException if they are not 32
   */
  public static Hash of(byte[] bytes) {
    if (bytes.length != LENGTH) {
      throw new IllegalArgumentException("a hash has 32 bytes, not " + bytes.length);
    }
    return new Hash(bytes.clone());
  }

  /**
   * Reads standard base64 in its one canonical form.
   *
   * @throws IllegalArgumentException if it is not the base64 of 32 bytes
   */
  public static Hash ofBase64(String text) {
    Hash hash = of(Base64.getDecoder().decode(text));
    // The decoder overlooks bits beyond the last byte; one hash must have one text.
    if (!hash.base64().equals(text)) {
      throw new IllegalArgumentException("not canonical base64: " + text);
    }
    return hash;
  }

  /** SHA-256 of the parts, one after the other. */
  public static Hash sha256(byte[]... parts) {
    MessageDigest digest = digest();
    for (byte[] part : parts) {
      digest.update(part);
    }
    return new Hash(digest.digest());
  }

  /** The hash of an entry. */
  public static Hash leaf(byte[] entry) {
    return sha256(LEAF, entry);
  }

  /** The hash of two subtrees side by side. */
  public static Hash node(Hash left, Hash right) {
    return sha256(NODE, left.bytes, right.bytes);
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }

  /** A copy of the 32 bytes. */
  public byte[] bytes() {
    return bytes.clone();
  }

  /** Standard base64 with padding. */
  public String base64() {
    return Base64.getEncoder().encodeToString(bytes);
  }

  /** 64 lower-case hexadecimal digits. */
  public String hex() {
    return HexFormat.of().formatHex(bytes);
  }

  @Override
  public boolean equals(@Nullable Object that) {
    return that instanceof Hash hash && Arrays.equals(bytes, hash.bytes);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(bytes);
  }

  @Override
  public String toString() {
    return hex();
  }
}

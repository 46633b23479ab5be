package evenside.note;

import evenside.merkle.Hash;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Base64;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * A public key with its name: the line that a verifier pins.
 *
 * <p>Shape: {@code name+id+base64(0x01 || key)}, where the id is the first four bytes, in
 * hexadecimal, of SHA-256(name || 0x0A || 0x01 || key). Source: C2SP signed-note, Ed25519.
 */
public final class VerifierKey {
  private static final byte ED25519 = 1;

  private final String name;
  private final byte[] key;

  private VerifierKey(String name, byte[] key) {
    this.name = name;
    this.key = key;
  }

  /**
   * A key of 32 bytes under a name.
   *
   * @throws IllegalArgumentException if the name is not fit for a note, or the key has another
   *     length
   */
  public static VerifierKey of(String name, byte[] key) {
    checkName(name);
    if (key.length != Ed25519.KEY_LENGTH) {
      throw new IllegalArgumentException("an Ed25519 key has 32 bytes, not " + key.length);
    }
    return new VerifierKey(name, key.clone());
  }

  /**
   * Reads a line.
   *
   * @throws IllegalArgumentException if it is none, or its id is not that of its key
   */
  public static VerifierKey parse(String line) {
    String[] parts = line.split("\\+", 3);
    if (parts.length != 3) {
      throw new IllegalArgumentException("a verifier key is name+id+key, not " + line);
    }
    byte[] typed = decoded(parts[2]);
    if (typed.length != 1 + Ed25519.KEY_LENGTH || typed[0] != ED25519) {
      throw new IllegalArgumentException("the verifier key is not an Ed25519 key: " + line);
    }
    VerifierKey read = of(parts[0], Arrays.copyOfRange(typed, 1, typed.length));
    if (!read.line().equals(line)) {
      throw new IllegalArgumentException("the id of the verifier key is not that of its key");
    }
    return read;
  }

  private static byte[] decoded(String base64) {
    try {
      return Base64.getDecoder().decode(base64);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(
          "a verifier key is name+id+key, with its key in base64, not " + base64, e);
    }
  }

  /** A name has no blank, no plus, no control character, and is not empty. */
  static void checkName(String name) {
    boolean fit =
        !name.isEmpty()
            && name.codePoints()
                .noneMatch(
                    c ->
                        c == '+'
                            || Character.isWhitespace(c)
                            || Character.isSpaceChar(c)
                            || Character.isISOControl(c));
    if (!fit) {
      throw new IllegalArgumentException(
          "a key name has at least one character, no blank and no plus: \"" + name + "\"");
    }
  }

  public String name() {
    return name;
  }

  /** Eight hexadecimal digits. */
  public String id() {
    return HexFormat.of().formatHex(idBytes());
  }

  byte[] idBytes() {
    byte[] hash = Hash.sha256((name + "\n").getBytes(StandardCharsets.UTF_8), typed()).bytes();
    return Arrays.copyOf(hash, SignedNote.KEY_ID_LENGTH);
  }

  private byte[] typed() {
    byte[] typed = new byte[1 + key.length];
    typed[0] = ED25519;
    System.arraycopy(key, 0, typed, 1, key.length);
    return typed;
  }

  /** The line to publish and to pin. */
  public String line() {
    return name + "+" + id() + "+" + Base64.getEncoder().encodeToString(typed());
  }

  /** SHA-256 of the line, as a key event in the ledger commits to it. */
  public Hash fingerprint() {
    return Hash.sha256(line().getBytes(StandardCharsets.UTF_8));
  }

  /** Whether the signature is this key's on the message. */
  public boolean verifies(byte[] message, byte[] signature) {
    return Ed25519.verifies(key, message, signature);
  }

  @Override
  public boolean equals(@Nullable Object that) {
    return that instanceof VerifierKey other && line().equals(other.line());
  }

  @Override
  public int hashCode() {
    return line().hashCode();
  }

  @Override
  public String toString() {
    return line();
  }
}

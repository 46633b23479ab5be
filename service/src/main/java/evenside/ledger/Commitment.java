package evenside.ledger;

import evenside.merkle.Hash;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;

/**
 * A commitment to a document: it binds to every byte, and without the salt it cannot be matched to
 * any guess, not even of a document of which few forms are possible. So once document and salt are
 * erased, what stays in the ledger says nothing.
 *
 * <p>Shape: SHA-256("evenside/commit/v1" || 0x00 || salt[32] || document).
 */
public final class Commitment {
  /** Bytes of a salt. */
  public static final int SALT_LENGTH = 32;

  private static final byte[] PREFIX = "evenside/commit/v1\0".getBytes(StandardCharsets.US_ASCII);
  private static final SecureRandom RANDOM = new SecureRandom();

  private Commitment() {}

  /**
   * The commitment.
   *
   * @throws IllegalArgumentException if the salt does not have 32 bytes
   */
  public static Hash of(byte[] salt, byte[] document) {
    if (salt.length != SALT_LENGTH) {
      throw new IllegalArgumentException("a salt has 32 bytes, not " + salt.length);
    }
    return Hash.sha256(PREFIX, salt, document);
  }

  /** A new salt, for one document only. */
  public static byte[] newSalt() {
    byte[] salt = new byte[SALT_LENGTH];
    RANDOM.nextBytes(salt);
    return salt;
  }
}

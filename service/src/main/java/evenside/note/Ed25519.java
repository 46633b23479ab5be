package evenside.note;

import java.math.BigInteger;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;
import java.security.spec.EdECPoint;
import java.security.spec.EdECPublicKeySpec;
import java.security.spec.NamedParameterSpec;

/**
 * Signatures of RFC 8032 by the JDK, with the one check that the JDK leaves out: a signature has 64
 * bytes.
 */
public final class Ed25519 {
  static final String NAME = "Ed25519";
  static final int PUBLIC_KEY_LENGTH = 32;
  static final int SIGNATURE_LENGTH = 64;

  private Ed25519() {}

  static byte[] sign(PrivateKey key, byte[] message) {
    try {
      Signature signature = Signature.getInstance(NAME);
      signature.initSign(key);
      signature.update(message);
      return signature.sign();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("cannot sign: " + e.getMessage(), e);
    }
  }

  /** Whether the signature is the key's on the message; never throws for what is sent. */
  public static boolean verifies(byte[] rawPublicKey, byte[] message, byte[] signature) {
    if (signature.length != SIGNATURE_LENGTH) {
      return false;
    }
    try {
      Signature check = Signature.getInstance(NAME);
      check.initVerify(publicKey(rawPublicKey));
      check.update(message);
      return check.verify(signature);
    } catch (GeneralSecurityException malformed) {
      return false;
    }
  }

  /**
   * The key of 32 bytes: y in little-endian order, the sign of x in the last bit.
   *
   * @throws GeneralSecurityException if the bytes are not a point of the curve
   */
  private static PublicKey publicKey(byte[] raw) throws GeneralSecurityException {
    byte[] y = new byte[raw.length];
    for (int i = 0; i < raw.length; i++) {
      y[i] = raw[raw.length - 1 - i];
    }
    boolean xOdd = (y[0] & 0x80) != 0;
    y[0] &= 0x7f;
    return KeyFactory.getInstance(NAME)
        .generatePublic(
            new EdECPublicKeySpec(
                NamedParameterSpec.ED25519, new EdECPoint(xOdd, new BigInteger(1, y))));
  }
}

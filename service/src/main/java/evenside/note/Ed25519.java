package evenside.note;

import org.bouncycastle.crypto.params.Ed25519PrivateKeyParameters;
import org.bouncycastle.crypto.params.Ed25519PublicKeyParameters;

/** Signatures of RFC 8032, by Bouncy Castle: the JDK's take nine times as long. */
public final class Ed25519 {
  static final int KEY_LENGTH = Ed25519PublicKeyParameters.KEY_SIZE;
  static final int SIGNATURE_LENGTH = Ed25519PrivateKeyParameters.SIGNATURE_SIZE;
  private static final int PLAIN = org.bouncycastle.math.ec.rfc8032.Ed25519.Algorithm.Ed25519;

  private Ed25519() {}

  static byte[] sign(Ed25519PrivateKeyParameters key, byte[] message) {
    byte[] signature = new byte[SIGNATURE_LENGTH];
    key.sign(PLAIN, null, message, 0, message.length, signature, 0);
    return signature;
  }

  /** Whether the signature is the key's on the message; never throws for what is sent. */
  public static boolean verifies(byte[] publicKey, byte[] message, byte[] signature) {
    if (signature.length != SIGNATURE_LENGTH || publicKey.length != KEY_LENGTH) {
      return false;
    }
    try {
      return new Ed25519PublicKeyParameters(publicKey)
          .verify(PLAIN, null, message, 0, message.length, signature, 0);
    } catch (IllegalArgumentException notOnTheCurve) {
      return false;
    }
  }
}

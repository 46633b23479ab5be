package evenside.api.access;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.ECDSAVerifier;
import com.nimbusds.jose.crypto.RSASSAVerifier;
import com.nimbusds.jose.util.Base64URL;
import evenside.note.Ed25519;
import java.security.interfaces.ECPublicKey;
import java.security.interfaces.RSAPublicKey;
import java.text.ParseException;
import java.util.Set;

/**
 * A public key with the algorithms it may be used in, so that a token cannot choose another one
 * (RFC 8725, section 3.1).
 *
 * @param algorithms their names as {@code alg}
 * @param check checks a signature in one of them
 */
record VerificationKey(Set<String> algorithms, Check check) {
  /** Checks a signature. */
  @FunctionalInterface
  interface Check {
    /**
     * Whether the signature is the key's.
     *
     * @param header the protected header, base64url
     * @param signed what is signed
     * @param signature its bytes
     */
    boolean holds(String header, byte[] signed, byte[] signature)
        throws ParseException, JOSEException;
  }

  /** An RSA key, for RS256. */
  static VerificationKey rsa(RSAPublicKey key) {
    return new VerificationKey(
        Set.of("RS256"),
        (header, signed, signature) ->
            new RSASSAVerifier(key)
                .verify(
                    JWSHeader.parse(new Base64URL(header)), signed, Base64URL.encode(signature)));
  }

  /** A key of the curve P-256, for ES256. */
  static VerificationKey p256(ECPublicKey key) {
    return new VerificationKey(
        Set.of("ES256"),
        (header, signed, signature) ->
            new ECDSAVerifier(key)
                .verify(
                    JWSHeader.parse(new Base64URL(header)), signed, Base64URL.encode(signature)));
  }

  /** 32 bytes of Ed25519, for EdDSA (RFC 8037) under its old and its new name (RFC 9864). */
  static VerificationKey ed25519(byte[] key) {
    return new VerificationKey(
        Set.of("EdDSA", "Ed25519"),
        (header, signed, signature) -> Ed25519.verifies(key, signed, signature));
  }

  /** Whether a token is signed by this key, in one of its algorithms. */
  boolean signed(Jws token) {
    try {
      return algorithms.contains(token.algorithm())
          && check.holds(token.headerText(), token.signed(), token.signature());
    } catch (ParseException | JOSEException e) {
      return false;
    }
  }
}

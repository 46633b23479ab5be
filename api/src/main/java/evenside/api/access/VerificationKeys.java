package evenside.api.access;

import com.nimbusds.jose.Algorithm;
import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.KeyOperation;
import com.nimbusds.jose.jwk.KeyUse;
import com.nimbusds.jose.jwk.OctetKeyPair;
import com.nimbusds.jose.jwk.RSAKey;
import java.nio.charset.StandardCharsets;
import java.text.ParseException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** The public keys of the authorization server, from its JWK set (RFC 7517), by key id. */
final class VerificationKeys {
  /** No keys at all. */
  static final VerificationKeys NONE = new VerificationKeys(Map.of());

  private static final int MOST = 100;
  private static final int SHORTEST_RSA = 2_048;
  private static final int LONGEST_RSA = 8_192;
  private static final int ED25519_BYTES = 32;

  private final Map<String, VerificationKey> keys;

  private VerificationKeys(Map<String, VerificationKey> keys) {
    this.keys = Map.copyOf(keys);
  }

  Optional<VerificationKey> of(String kid) {
    return Optional.ofNullable(keys.get(kid));
  }

  /**
   * Reads a JWK set. Keys for other purposes or of other kinds are passed over, as a server may
   * publish them for others.
   *
   * @throws IllegalArgumentException if it is none, holds a secret, two keys of one id, or no key
   *     that could sign a token we take
   */
  static VerificationKeys parse(byte[] bytes) {
    JsonNode root = OperatorJson.read(bytes);
    if (!root.isObject() || !root.path("keys").isArray() || root.path("keys").size() > MOST) {
      throw new IllegalArgumentException("#/keys: must be a list of " + MOST + " keys at most");
    }
    Map<String, VerificationKey> keys = new LinkedHashMap<>();
    for (JWK jwk : jwks(bytes)) {
      if (jwk.isPrivate()) {
        throw new IllegalArgumentException("it holds a private or secret key");
      }
      Optional<VerificationKey> key = usable(jwk);
      if (key.isPresent() && keys.put(jwk.getKeyID(), key.get()) != null) {
        throw new IllegalArgumentException("two keys have the same id");
      }
    }
    if (keys.isEmpty()) {
      throw new IllegalArgumentException(
          "it has no key with an id (kid) for RS256, ES256 or Ed25519 signatures");
    }
    return new VerificationKeys(keys);
  }

  private static List<JWK> jwks(byte[] bytes) {
    try {
      return JWKSet.parse(new String(bytes, StandardCharsets.UTF_8)).getKeys();
    } catch (ParseException e) {
      throw new IllegalArgumentException("it is not a JWK set: " + e.getMessage(), e);
    }
  }

  private static Optional<VerificationKey> usable(JWK jwk) {
    boolean signs = jwk.getKeyUse() == null || jwk.getKeyUse().equals(KeyUse.SIGNATURE);
    Set<KeyOperation> operations = jwk.getKeyOperations();
    boolean verifies = operations == null || operations.contains(KeyOperation.VERIFY);
    if (jwk.getKeyID() == null || !signs || !verifies) {
      return Optional.empty();
    }
    Algorithm only = jwk.getAlgorithm();
    return key(jwk).filter(key -> only == null || key.algorithms().contains(only.getName()));
  }

  private static Optional<VerificationKey> key(JWK jwk) {
    try {
      if (jwk instanceof RSAKey rsa && rsa.size() >= SHORTEST_RSA && rsa.size() <= LONGEST_RSA) {
        return Optional.of(VerificationKey.rsa(rsa.toRSAPublicKey()));
      }
      if (jwk instanceof ECKey ec && ec.getCurve().equals(Curve.P_256)) {
        return Optional.of(VerificationKey.p256(ec.toECPublicKey()));
      }
      if (jwk instanceof OctetKeyPair okp && okp.getCurve().equals(Curve.Ed25519)) {
        return Optional.of(VerificationKey.ed25519(point(okp)));
      }
      return Optional.empty();
    } catch (JOSEException e) {
      throw new IllegalArgumentException(
          "it holds a key that cannot be read: " + e.getMessage(), e);
    }
  }

  private static byte[] point(OctetKeyPair key) {
    byte[] point = key.getDecodedX();
    if (point.length != ED25519_BYTES) {
      throw new IllegalArgumentException("it holds an Ed25519 key of " + point.length + " bytes");
    }
    return point;
  }
}

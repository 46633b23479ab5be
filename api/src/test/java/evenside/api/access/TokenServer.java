package evenside.api.access;

import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.OctetKeyPair;
import com.nimbusds.jose.jwk.RSAKey;
import com.nimbusds.jose.util.Base64URL;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.Signature;
import java.security.interfaces.ECPublicKey;
import java.security.interfaces.RSAPublicKey;
import java.security.spec.ECGenParameterSpec;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * An invented authorization server. Tokens are put together and signed with the JDK alone, so that
 * what is under test does not also make its own input.
 */
public final class TokenServer {
  public static final String ISSUER = "https://login.evenside.example";
  public static final String AUDIENCE = "https://api.evenside.example";
  public static final String CLIENTS =
      """
      {"clients": [
        {"clientId": "7f3c", "clinic": "north", "client": "gym-software"},
        {"clientId": "9a10", "clinic": "south", "client": "ward-software"}]}
      """;

  final KeyPair rsa = pair("RSA", 2048);
  final KeyPair ec = pairOfP256();
  final KeyPair ed = pair("Ed25519", 255);

  /** The claims of a token that holds at {@code now}. */
  public static ObjectNode claims(Instant now) {
    return JsonMapper.shared()
        .createObjectNode()
        .put("iss", ISSUER)
        .put("aud", AUDIENCE)
        .put("sub", "7f3c")
        .put("client_id", "7f3c")
        .put("jti", "1")
        .put("iat", now.getEpochSecond())
        .put("exp", now.getEpochSecond() + 300)
        .put("scope", "openid records:write decisions:read");
  }

  /** The header of such a token. */
  static ObjectNode header(String alg, String kid) {
    return JsonMapper.shared()
        .createObjectNode()
        .put("alg", alg)
        .put("kid", kid)
        .put("typ", "at+jwt");
  }

  /** This server's tokens, as a service that trusts it takes them. */
  public AccessTokens tokens(Instant now) {
    return AccessTokens.of(
        new AccessTokens.Trusted(ISSUER, AUDIENCE, new Memory(jwks()), new Memory(CLIENTS)),
        InstantSource.fixed(now));
  }

  /** A token that holds, signed by the RSA key. */
  public String token(Instant now) {
    return rs256(header("RS256", "r"), claims(now));
  }

  /** Tokens whose headers say that their key is to be fetched at an address; signed well or not. */
  public List<String> pointingTo(String address, Instant now) {
    return Stream.of("jku", "x5u", "kid", "iss")
        .map(
            name ->
                rs256(
                    header("RS256", "unknown").put(name, address), claims(now).put("iss", address)))
        .toList();
  }

  String rs256(ObjectNode header, ObjectNode claims) {
    return sign(header, claims, "SHA256withRSA", rsa);
  }

  String es256(ObjectNode header, ObjectNode claims) {
    return sign(header, claims, "SHA256withECDSAinP1363Format", ec);
  }

  String ed25519(ObjectNode header, ObjectNode claims) {
    return sign(header, claims, "Ed25519", ed);
  }

  static String sign(ObjectNode header, ObjectNode claims, String algorithm, KeyPair by) {
    String signed = base64(header.toString()) + "." + base64(claims.toString());
    try {
      Signature signature = Signature.getInstance(algorithm);
      signature.initSign(by.getPrivate());
      signature.update(signed.getBytes(StandardCharsets.US_ASCII));
      return signed + "." + base64(signature.sign());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  static String base64(String text) {
    return base64(text.getBytes(StandardCharsets.UTF_8));
  }

  static String base64(byte[] bytes) {
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }

  /** Its public keys: {@code r}, {@code e} and {@code d}, and two that are not for signatures. */
  public String jwks() {
    return jwks(
        new RSAKey.Builder((RSAPublicKey) rsa.getPublic()).keyID("r").build(),
        new ECKey.Builder(Curve.P_256, (ECPublicKey) ec.getPublic()).keyID("e").build(),
        new OctetKeyPair.Builder(Curve.Ed25519, edPoint()).keyID("d").build(),
        new OctetKeyPair.Builder(Curve.X25519, edPoint()).keyID("x").build(),
        new RSAKey.Builder((RSAPublicKey) rsa.getPublic())
            .keyID("enc")
            .keyUse(com.nimbusds.jose.jwk.KeyUse.ENCRYPTION)
            .build());
  }

  static String jwks(JWK... keys) {
    List<String> texts = Stream.of(keys).map(JWK::toJSONString).toList();
    return "{\"keys\":[" + texts.stream().collect(Collectors.joining(",")) + "]}";
  }

  /** The last 32 bytes of its X.509 form are the point. */
  private Base64URL edPoint() {
    byte[] encoded = ed.getPublic().getEncoded();
    return Base64URL.encode(Arrays.copyOfRange(encoded, encoded.length - 32, encoded.length));
  }

  static KeyPair pair(String algorithm, int size) {
    try {
      KeyPairGenerator generator = KeyPairGenerator.getInstance(algorithm);
      if (!algorithm.equals("Ed25519")) {
        generator.initialize(size);
      }
      return generator.generateKeyPair();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  private static KeyPair pairOfP256() {
    try {
      KeyPairGenerator generator = KeyPairGenerator.getInstance("EC");
      generator.initialize(new ECGenParameterSpec("secp256r1"));
      return generator.generateKeyPair();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }
}

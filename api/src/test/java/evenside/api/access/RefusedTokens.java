package evenside.api.access;

import static evenside.api.access.TokenServer.AUDIENCE;
import static evenside.api.access.TokenServer.ISSUER;
import static evenside.api.access.TokenServer.base64;
import static evenside.api.access.TokenServer.claims;
import static evenside.api.access.TokenServer.header;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.time.Instant;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import tools.jackson.databind.node.ObjectNode;

/** Tokens that nobody may take. */
public final class RefusedTokens {
  private final TokenServer server;
  private final TokenServer other;
  private final Instant now;

  private RefusedTokens(TokenServer server, TokenServer other, Instant now) {
    this.server = server;
    this.other = other;
    this.now = now;
  }

  /**
   * Tokens for a time.
   *
   * @param server is trusted
   * @param other is not
   */
  public static RefusedTokens of(TokenServer server, TokenServer other, Instant now) {
    return new RefusedTokens(server, other, now);
  }

  /** Tokens by the name of what is wrong. */
  public Map<String, String> all() {
    Map<String, String> refused = new LinkedHashMap<>();
    refused.put("expired", claim(c -> c.put("exp", now.getEpochSecond() - 60)));
    refused.put("wrong audience", claim(c -> c.put("aud", "https://other.example")));
    refused.put("audience begins alike", claim(c -> c.put("aud", AUDIENCE + "/")));
    refused.put("wrong type", head(h -> h.put("typ", "JWT")));
    refused.put("no type", head(h -> h.remove("typ")));
    refused.put("alg none", unsigned("none"));
    refused.put("alg None", unsigned("None"));
    refused.put("HMAC with the public key", hmacWithThePublicKey());
    refused.put("unknown kid", head(h -> h.put("kid", "other")));
    refused.put("no kid", head(h -> h.remove("kid")));
    refused.put("kid of a key for encryption", head(h -> h.put("kid", "enc")));
    refused.put("jku to an attacker", byAStranger(h -> h.put("jku", "https://evil.example/keys")));
    refused.put("jwk of an attacker", byAStranger(h -> h.putObject("jwk").put("kty", "RSA")));
    refused.put("x5u to an attacker", byAStranger(h -> h.put("x5u", "https://evil.example/crt")));
    refused.put("signed by a stranger", byAStranger(h -> {}));
    refused.put("other issuer", claim(c -> c.put("iss", ISSUER + "/")));
    refused.put("no issuer", claim(c -> c.remove("iss")));
    refused.put("not yet", claim(c -> c.put("nbf", now.getEpochSecond() + 61)));
    refused.put("issued ahead", claim(c -> c.put("iat", now.getEpochSecond() + 61)));
    refused.put("no exp", claim(c -> c.remove("exp")));
    refused.put("exp as text", claim(c -> c.put("exp", "9999999999")));
    refused.put("exp beyond time", claim(c -> c.put("exp", 999_999_999_999_999L)));
    refused.put("no iat", claim(c -> c.remove("iat")));
    refused.put("no sub", claim(c -> c.remove("sub")));
    refused.put("no client_id", claim(c -> c.remove("client_id")));
    refused.put("client_id a number", claim(c -> c.put("client_id", 5)));
    refused.put("no jti", claim(c -> c.remove("jti")));
    refused.put("client of no clinic", claim(c -> c.put("client_id", "unknown")));
    refused.put("crit", head(h -> h.putArray("crit").add("exp")));
    refused.put("algorithm of another key", head(h -> h.put("kid", "e")));
    refused.put("RS512", head(h -> h.put("alg", "RS512")));
    refused.put("PS256", head(h -> h.put("alg", "PS256")));
    refused.put("signature in DER", signatureInDer());
    refused.put("signature of zeros", zeros());
    refused.put("Ed25519 signature of 65 bytes", edWithAStrayZero());
    refused.put("claim twice", twice());
    refused.put("payload no object", server.token(now).replaceFirst("\\.[^.]+\\.", ".W10."));
    refused.put("two parts", server.token(now).replaceFirst("\\.[^.]+$", ""));
    refused.put("four parts", server.token(now) + ".");
    refused.put("padding", server.token(now) + "=");
    refused.put("empty", "");
    return refused;
  }

  private String claim(Consumer<ObjectNode> change) {
    ObjectNode claims = claims(now);
    change.accept(claims);
    return server.rs256(header("RS256", "r"), claims);
  }

  private String head(Consumer<ObjectNode> change) {
    ObjectNode header = header("RS256", "r");
    change.accept(header);
    return server.rs256(header, claims(now));
  }

  private String byAStranger(Consumer<ObjectNode> change) {
    ObjectNode header = header("RS256", "r");
    change.accept(header);
    return TokenServer.sign(header, claims(now), "SHA256withRSA", other.rsa);
  }

  private String unsigned(String alg) {
    return base64(header(alg, "r").toString()) + "." + base64(claims(now).toString()) + ".";
  }

  /** The public key is known to everyone; as an HMAC key it would let everyone sign. */
  private String hmacWithThePublicKey() {
    String signed = base64(header("HS256", "r").toString()) + "." + base64(claims(now).toString());
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(server.rsa.getPublic().getEncoded(), "HmacSHA256"));
      return signed + "." + base64(mac.doFinal(signed.getBytes(StandardCharsets.US_ASCII)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  private String signatureInDer() {
    return TokenServer.sign(header("ES256", "e"), claims(now), "SHA256withECDSA", server.ec);
  }

  /** What JDK 15 to 18 took for a signature of anything (CVE-2022-21449, from memory). */
  private String zeros() {
    String token = server.es256(header("ES256", "e"), claims(now));
    return token.substring(0, token.lastIndexOf('.') + 1) + base64(new byte[64]);
  }

  private String edWithAStrayZero() {
    String token = server.ed25519(header("EdDSA", "d"), claims(now));
    int at = token.lastIndexOf('.') + 1;
    byte[] signature = Base64.getUrlDecoder().decode(token.substring(at));
    return token.substring(0, at) + base64(java.util.Arrays.copyOf(signature, 65));
  }

  private String twice() {
    String claims = claims(now).toString().replace("{\"iss\"", "{\"exp\":1,\"iss\"");
    String signed = base64(header("RS256", "r").toString()) + "." + base64(claims);
    try {
      java.security.Signature signature = java.security.Signature.getInstance("SHA256withRSA");
      signature.initSign(server.rsa.getPrivate());
      signature.update(signed.getBytes(StandardCharsets.US_ASCII));
      return signed + "." + base64(signature.sign());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }
}

package evenside.api.access;

import static evenside.api.access.TokenServer.AUDIENCE;
import static evenside.api.access.TokenServer.ISSUER;
import static evenside.api.access.TokenServer.base64;
import static evenside.api.access.TokenServer.claims;
import static evenside.api.access.TokenServer.header;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.http.Caller;
import evenside.api.http.Scope;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Stream;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

/**
 * Which access tokens hold: RFC 9068 sections 2 and 4, with the attacks of RFC 8725 (from memory)
 * and of OWASP API2:2023.
 */
class AccessTokensTest {
  private static final TokenServer SERVER = new TokenServer();

  /** Keys of somebody else. */
  private static final TokenServer OTHER = new TokenServer();

  private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
  private static final Caller GYM =
      Caller.of("north", "gym-software", Set.of(Scope.RECORDS_WRITE, Scope.DECISIONS_READ));

  private final Memory keys = new Memory(SERVER.jwks());
  private final Memory clients = new Memory(TokenServer.CLIENTS);
  private Instant now = NOON;
  private final AccessTokens tokens =
      AccessTokens.of(new AccessTokens.Trusted(ISSUER, AUDIENCE, keys, clients), () -> now);

  @Test
  void token_inEachAlgorithm_holds() {
    assertThat(tokens.caller(SERVER.rs256(header("RS256", "r"), claims(NOON)))).contains(GYM);
    assertThat(tokens.caller(SERVER.es256(header("ES256", "e"), claims(NOON)))).contains(GYM);
    assertThat(tokens.caller(SERVER.ed25519(header("EdDSA", "d"), claims(NOON)))).contains(GYM);
    assertThat(tokens.caller(SERVER.ed25519(header("Ed25519", "d"), claims(NOON)))).contains(GYM);
  }

  @Test
  void token_inOtherLawfulForms_holds() {
    ObjectNode long_ = header("RS256", "r").put("typ", "application/AT+JWT");
    assertThat(tokens.caller(SERVER.rs256(long_, claims(NOON)))).contains(GYM);
    ObjectNode many = claims(NOON);
    many.putArray("aud").add("https://other.example").add(AUDIENCE);
    assertThat(tokens.caller(SERVER.rs256(header("RS256", "r"), many))).contains(GYM);
    ObjectNode strange = claims(NOON).put("tenant", "south").put("clinic", "south");
    assertThat(tokens.caller(SERVER.rs256(header("RS256", "r"), strange))).contains(GYM);
    ObjectNode none = claims(NOON);
    none.remove("scope");
    assertThat(tokens.caller(SERVER.rs256(header("RS256", "r"), none)).orElseThrow().scopes())
        .isEmpty();
  }

  /** By the name of what is wrong. */
  static Stream<Map.Entry<String, String>> refused() {
    Map<String, String> refused = new LinkedHashMap<>();
    refused.put("expired", claim(c -> c.put("exp", NOON.getEpochSecond() - 60)));
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
    refused.put("not yet", claim(c -> c.put("nbf", NOON.getEpochSecond() + 61)));
    refused.put("issued ahead", claim(c -> c.put("iat", NOON.getEpochSecond() + 61)));
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
    refused.put("payload no object", SERVER.token(NOON).replaceFirst("\\.[^.]+\\.", ".W10."));
    refused.put("two parts", SERVER.token(NOON).replaceFirst("\\.[^.]+$", ""));
    refused.put("four parts", SERVER.token(NOON) + ".");
    refused.put("padding", SERVER.token(NOON) + "=");
    refused.put("empty", "");
    return refused.entrySet().stream();
  }

  @ParameterizedTest
  @MethodSource("refused")
  void token_faulty_doesNotHold(Map.Entry<String, String> token) {
    assertThat(tokens.caller(SERVER.token(NOON))).isPresent();
    assertThat(tokens.caller(token.getValue())).isEmpty();
  }

  @Test
  void token_changedInOneCharacter_doesNotHold() {
    String token = SERVER.token(NOON);
    for (int i = 0; i < token.length(); i += 7) {
      char other = token.charAt(i) == 'A' ? 'B' : 'A';
      assertThat(tokens.caller(token.substring(0, i) + other + token.substring(i + 1)))
          .as("character %d", i)
          .isEmpty();
    }
  }

  /** The skew is 60 seconds, and a token that was believed before ends all the same. */
  @ParameterizedTest
  @CsvSource({"0, true", "359, true", "360, false", "86400, false"})
  void token_endsWithItsTime(long seconds, boolean holds) {
    String token = SERVER.token(NOON);
    assertThat(tokens.caller(token)).isPresent();
    now = NOON.plusSeconds(seconds);
    assertThat(tokens.caller(token).isPresent()).isEqualTo(holds);
    String another = SERVER.rs256(header("RS256", "r"), claims(NOON).put("jti", "2"));
    assertThat(tokens.caller(another).isPresent()).isEqualTo(holds);
  }

  @Test
  void kid_unknown_makesTheKeysBeReadAgain_onceAMinute() {
    String later = OTHER.rs256(header("RS256", "r2"), claims(NOON));
    keys.text = OTHER.jwks().replace("\"kid\":\"r\"", "\"kid\":\"r2\"");
    for (int i = 0; i < 50; i++) {
      assertThat(tokens.caller(later)).isEmpty();
    }
    assertThat(keys.reads).isEqualTo(1);
    now = NOON.plusSeconds(60);
    assertThat(tokens.caller(later)).contains(GYM);
    assertThat(tokens.caller(SERVER.token(NOON))).as("a key that is gone").isEmpty();
    assertThat(keys.reads).isEqualTo(2);
  }

  @Test
  void key_takenBack_endsTokensThatWereBelieved() {
    String token = SERVER.rs256(header("RS256", "r"), claims(NOON).put("exp", year()));
    assertThat(tokens.caller(token)).isPresent();
    keys.text = OTHER.jwks();
    now = NOON.plus(Duration.ofMinutes(10));
    assertThat(tokens.caller(token)).isEmpty();
  }

  @Test
  void keys_faultyOrGone_leaveTheOldOnesInForce() {
    String token = SERVER.rs256(header("RS256", "r"), claims(NOON).put("exp", year()));
    for (String bad : new String[] {"", "{}", "{\"keys\":[]}", "x".repeat(300_000)}) {
      keys.text = bad;
      now = now.plus(Duration.ofMinutes(10));
      assertThat(tokens.caller(token)).as(bad).contains(GYM);
    }
    keys.gone = true;
    now = now.plus(Duration.ofMinutes(10));
    assertThat(tokens.caller(token)).contains(GYM);
    assertThat(keys.reads).isEqualTo(6);
  }

  @Test
  void clients_areReadAgain_andFaultyOnesLeaveTheOldInForce() {
    String token = SERVER.rs256(header("RS256", "r"), claims(NOON).put("exp", year()));
    clients.text = "{\"clients\": []}";
    now = now.plusSeconds(60);
    assertThat(tokens.caller(token)).contains(GYM);
    clients.text = TokenServer.CLIENTS.replace("north", "west");
    now = now.plusSeconds(60);
    assertThat(tokens.caller(token).orElseThrow().clinic()).contains("west");
    clients.text = TokenServer.CLIENTS.replace("7f3c", "8888");
    now = now.plusSeconds(60);
    assertThat(tokens.caller(token)).isEmpty();
  }

  @Test
  void files_faultyAtTheStart_areRefused() {
    Memory bad = new Memory("{}");
    assertThatThrownBy(() -> with(bad, clients)).hasMessageContaining("cannot use memory: #/keys");
    assertThatThrownBy(() -> with(keys, bad)).hasMessageContaining("cannot use memory: #: takes");
  }

  private AccessTokens with(Source keySource, Source clientSource) {
    return AccessTokens.of(
        new AccessTokens.Trusted(ISSUER, AUDIENCE, keySource, clientSource), () -> now);
  }

  private static long year() {
    return NOON.plus(Duration.ofDays(365)).getEpochSecond();
  }

  private static String claim(Consumer<ObjectNode> change) {
    ObjectNode claims = claims(NOON);
    change.accept(claims);
    return SERVER.rs256(header("RS256", "r"), claims);
  }

  private static String head(Consumer<ObjectNode> change) {
    ObjectNode header = header("RS256", "r");
    change.accept(header);
    return SERVER.rs256(header, claims(NOON));
  }

  private static String byAStranger(Consumer<ObjectNode> change) {
    ObjectNode header = header("RS256", "r");
    change.accept(header);
    return TokenServer.sign(header, claims(NOON), "SHA256withRSA", OTHER.rsa);
  }

  private static String unsigned(String alg) {
    return base64(header(alg, "r").toString()) + "." + base64(claims(NOON).toString()) + ".";
  }

  /** The public key is known to everyone; as an HMAC key it would let everyone sign. */
  private static String hmacWithThePublicKey() {
    String signed = base64(header("HS256", "r").toString()) + "." + base64(claims(NOON).toString());
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(SERVER.rsa.getPublic().getEncoded(), "HmacSHA256"));
      return signed + "." + base64(mac.doFinal(signed.getBytes(StandardCharsets.US_ASCII)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String signatureInDer() {
    return TokenServer.sign(header("ES256", "e"), claims(NOON), "SHA256withECDSA", SERVER.ec);
  }

  /** What JDK 15 to 18 took for a signature of anything (CVE-2022-21449, from memory). */
  private static String zeros() {
    String token = SERVER.es256(header("ES256", "e"), claims(NOON));
    return token.substring(0, token.lastIndexOf('.') + 1) + base64(new byte[64]);
  }

  private static String edWithAStrayZero() {
    String token = SERVER.ed25519(header("EdDSA", "d"), claims(NOON));
    int at = token.lastIndexOf('.') + 1;
    byte[] signature = Base64.getUrlDecoder().decode(token.substring(at));
    return token.substring(0, at) + base64(java.util.Arrays.copyOf(signature, 65));
  }

  private static String twice() {
    String claims = claims(NOON).toString().replace("{\"iss\"", "{\"exp\":1,\"iss\"");
    String signed = base64(header("RS256", "r").toString()) + "." + base64(claims);
    try {
      java.security.Signature signature = java.security.Signature.getInstance("SHA256withRSA");
      signature.initSign(SERVER.rsa.getPrivate());
      signature.update(signed.getBytes(StandardCharsets.US_ASCII));
      return signed + "." + base64(signature.sign());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }
}

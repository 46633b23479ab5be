package evenside.api.access;

import static evenside.api.access.TokenServer.AUDIENCE;
import static evenside.api.access.TokenServer.ISSUER;
import static evenside.api.access.TokenServer.claims;
import static evenside.api.access.TokenServer.header;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
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

  static Stream<Map.Entry<String, String>> refused() {
    return RefusedTokens.of(SERVER, OTHER, NOON).all().entrySet().stream();
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

  /** Else what was read an hour ago, by a clock that was ahead, would hold for an hour longer. */
  @Test
  void clockPutBack_makesKeysAndClientsBeReadAgain() {
    String token =
        SERVER.rs256(
            header("RS256", "r"), claims(NOON.minus(Duration.ofHours(2))).put("exp", year()));
    assertThat(tokens.caller(token)).contains(GYM);
    now = NOON.minus(Duration.ofHours(1));
    clients.text = TokenServer.CLIENTS.replace("north", "west");
    assertThat(tokens.caller(token).orElseThrow().clinic()).contains("west");
    now = now.minus(Duration.ofMinutes(5));
    keys.text = OTHER.jwks();
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
    assertThatThrownBy(() -> with(keys, bad))
        .hasMessageContaining("cannot use memory: #: must have");
  }

  private AccessTokens with(Source keySource, Source clientSource) {
    return AccessTokens.of(
        new AccessTokens.Trusted(ISSUER, AUDIENCE, keySource, clientSource), () -> now);
  }

  private static long year() {
    return NOON.plus(Duration.ofDays(365)).getEpochSecond();
  }
}

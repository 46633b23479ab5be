package evenside.api.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import io.restassured.response.Response;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Credentials in requests. Whatever is wrong with them, the answer is one and the same. OWASP
 * API2:2023, broken authentication.
 */
class BearerTest {
  private static final TokenServer SERVER = new TokenServer();

  @RegisterExtension
  static final LiveService SERVICE = LiveService.guarded(SERVER.tokens(LiveService.NOW));

  private static Response get(String... authorization) {
    var request = SERVICE.http();
    for (String value : authorization) {
      request.header("Authorization", value);
    }
    return request.get("/v1/decisions");
  }

  @Test
  void token_ofEitherKind_isTaken() {
    String key = SERVICE.key("north", "gym", Scope.DECISIONS_READ);
    assertThat(get("Bearer " + key).statusCode()).isEqualTo(200);
    assertThat(get("bEARER   " + key).statusCode()).isEqualTo(200);
    assertThat(get("Bearer " + SERVER.token(LiveService.NOW)).statusCode()).isEqualTo(200);
  }

  @Test
  void token_faulty_isRefusedInOneWay() {
    Map<String, String> refused = new LinkedHashMap<>();
    RefusedTokens.of(SERVER, new TokenServer(), LiveService.NOW)
        .all()
        .forEach((fault, token) -> refused.put(fault, "Bearer " + token));
    String key = SERVICE.key("north", "once", Scope.DECISIONS_READ);
    String revoked = SERVICE.key("north", "gone", Scope.DECISIONS_READ);
    SERVICE.clientKeys().revoke(revoked.substring(4, 20));
    refused.put("revoked key", "Bearer " + revoked);
    refused.put("expired key", "Bearer " + expired());
    refused.put("key without its prefix", "Bearer " + key.substring(4));
    refused.put(
        "id of a key with another secret", "Bearer " + key.substring(0, 21) + "A".repeat(43));
    refused.put("another scheme", "Basic " + key);
    refused.put("no scheme", key);
    refused.put("token and more", "Bearer " + key + " more");
    refused.put("too long", "Bearer " + "a".repeat(9000));
    Set<String> answers =
        refused.entrySet().stream()
            .map(one -> refusal(one.getKey(), get(one.getValue())))
            .collect(java.util.stream.Collectors.toSet());
    answers.add(refusal("two keys", get("Bearer " + key, "Bearer " + key)));
    assertThat(answers).hasSize(1);
    assertThat(refused).hasSizeGreaterThan(10);
  }

  /** A key whose last moment was yesterday. */
  private static String expired() {
    InstantSource before = InstantSource.fixed(LiveService.NOW.minusSeconds(90_000));
    return SERVICE
        .clientKeysAt(before)
        .issue("north", "old", List.of("decisions:read"), LiveService.NOW)
        .token();
  }

  private static String refusal(String fault, Response response) {
    assertThat(response.statusCode()).as(fault).isEqualTo(401);
    return LiveService.seen(response);
  }

  @Test
  void credentials_missing_areAskedFor() {
    Response answer = get();
    assertThat(answer.statusCode()).isEqualTo(401);
    assertThat(answer.header("WWW-Authenticate")).isEqualTo("Bearer realm=\"evenside\"");
  }

  /** RFC 6750 section 2.3 knows tokens in a URL, and warns of them: URLs are logged. */
  @ParameterizedTest
  @ValueSource(strings = {"access_token", "token", "api_key"})
  void token_inTheUrl_isNotLookedAt(String name) {
    String key = SERVICE.key("north", "url-" + name, Scope.DECISIONS_READ);
    SERVICE.http().get("/v1/decisions?" + name + "=" + key).then().statusCode(401);
    SERVICE
        .http()
        .header("Authorization", "Bearer " + key)
        .get("/v1/decisions?" + name + "=" + key)
        .then()
        .statusCode(400)
        .body("detail", org.hamcrest.Matchers.not(org.hamcrest.Matchers.containsString(key)));
  }

  @Test
  void reader_isNamedInTheTrail_andTheUseOfItsKeyNoted() {
    String all = SERVICE.key("west", "ward-software", Scope.values());
    var as = "Bearer " + all;
    SERVICE.json(Examples.kneeCase()).header("Authorization", as).put("/v1/cases/c");
    String decision =
        SERVICE
            .record(Examples.decisionRequest())
            .header("Authorization", as)
            .post("/v1/cases/c/decisions")
            .path("decisionId");
    String auditor = "Bearer " + SERVICE.key("west", "auditor", Scope.AUDIT_READ);
    SERVICE.http().header("Authorization", auditor).get("/v1/decisions/" + decision);
    SERVICE
        .http()
        .header("Authorization", auditor)
        .get("/v1/accesses?decisionId=" + decision)
        .then()
        .statusCode(200)
        .body("items[0].reader", equalTo("auditor"), "items[0].action", equalTo("read"));
    assertThat(SERVICE.clientKeys().find(all).orElseThrow().lastUsedOn())
        .contains(LiveService.NOW.atOffset(java.time.ZoneOffset.UTC).toLocalDate());
  }

  /** What is open to anyone does not even look at credentials. */
  @Test
  void route_open_answersWithAnyCredentialsOrNone() {
    for (String path : List.of("/livez", "/v1/measures", "/openapi.yaml", "/v1/schemas")) {
      SERVICE.http().get(path).then().statusCode(200);
      SERVICE.http().header("Authorization", "Bearer nonsense").get(path).then().statusCode(200);
    }
  }
}

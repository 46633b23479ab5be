package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;

import evenside.api.access.Scope;
import evenside.api.access.TokenServer;
import evenside.api.openapi.Repository;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.SocketTimeoutException;
import java.util.List;
import java.util.UUID;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The ten risks of the OWASP API Security Top 10, 2023, and where each is tried:
 *
 * <ol>
 *   <li>broken object level authorization: {@link IsolationTest}
 *   <li>broken authentication: {@code BearerTest}, {@link evenside.api.access.RefusedTokens}
 *   <li>broken object property level authorization: here
 *   <li>unrestricted resource consumption: {@code StrictRequestsTest}, {@code PagingTest}, and here
 *   <li>broken function level authorization: {@code RoleMatrixTest}
 *   <li>unrestricted access to sensitive business flows: here
 *   <li>server side request forgery: here
 *   <li>security misconfiguration: {@link EntranceTest}, {@link GuardedServiceTest}, {@link
 *       ProblemsTest}
 *   <li>improper inventory management: {@link RoutesTest}, and here
 *   <li>unsafe consumption of APIs: the tests of {@code evenside.api.access}
 * </ol>
 */
class OwaspTest {
  private static final ServerSocket LISTENER = listen();
  private static final String LURE = "http://127.0.0.1:" + LISTENER.getLocalPort() + "/lure";
  private static final TokenServer SERVER = new TokenServer();

  @RegisterExtension
  static final LiveService SERVICE = LiveService.guarded(SERVER.tokens(LiveService.NOW));

  private static String key = "";

  private static ServerSocket listen() {
    try {
      return new ServerSocket(0, 10, InetAddress.getLoopbackAddress());
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  @BeforeAll
  static void record() {
    key = SERVICE.key("north", "gym", Scope.values());
    as(SERVICE.json(Examples.kneeCase())).put("/v1/cases/c").then().statusCode(201);
  }

  private static RequestSpecification as(RequestSpecification request) {
    return request.header("Authorization", "Bearer " + key);
  }

  private static Response post(String path, String body) {
    return as(SERVICE.record(body)).post(path);
  }

  /** What the service sets by itself is no member of what is sent. */
  @ParameterizedTest
  @CsvSource({
    "battery/strength-and-hops, /v1/cases/c/batteries",
    "session/first-run, /v1/cases/c/sessions",
    "decision-request/by-milestone, /v1/cases/c/decisions"
  })
  void api3_memberOfTheServices_isRefusedAsUnknown(String example, String path) {
    for (String member : List.of("receivedAt", "tenant", "clinic", "decision", "outcome")) {
      String body = Examples.changed("valid/" + example, json -> json.put(member, "north"));
      post(path, body)
          .then()
          .statusCode(422)
          .body("faults.pointer", hasItem("#/" + member), "faults.code", hasItem("member.unknown"));
    }
  }

  /** An auditor sees what is in the record, and nothing of how others prove who they are. */
  @Test
  void api3_nothingThatIsRead_holdsASecretOfAClient() {
    String secret = key.substring(21);
    String decision = post("/v1/cases/c/decisions", Examples.decisionRequest()).path("decisionId");
    for (String path :
        List.of(
            "/v1/decisions/" + decision,
            "/v1/decisions/" + decision + "/evidence",
            "/v1/accesses",
            "/v1/ledger/keys",
            "/v1/decisions")) {
      Response answer = as(SERVICE.http()).get(path);
      assertThat(answer.statusCode()).as(path).isEqualTo(200);
      assertThat(answer.asString()).as(path).doesNotContain(secret).doesNotContain("evk_");
    }
  }

  @ParameterizedTest
  @CsvSource({"200, 200", "201, 400", "0, 400", "-1, 400", "99999999999, 400"})
  void api4_page_hasALimit(String limit, int status) {
    as(SERVICE.http()).get("/v1/decisions?limit=" + limit).then().statusCode(status);
  }

  /** Credentials count like other headers: 16 KiB in all. */
  @Test
  void api4_credentials_haveALimit() {
    SERVICE
        .http()
        .header("Authorization", "Bearer " + "a".repeat(17_000))
        .get("/v1/decisions")
        .then()
        .statusCode(431);
  }

  /** Asking again until the answer pleases is seen: each attempt is an entry, and is counted. */
  @Test
  void api6_decidingUntilItFits_leavesATrace() {
    as(SERVICE.json(Examples.kneeCase())).put("/v1/cases/again").then().statusCode(201);
    long before = 0;
    for (int attempt = 1; attempt <= 3; attempt++) {
      int day = attempt;
      String battery =
          Examples.changed(
              "valid/battery/strength-and-hops",
              json -> {
                json.remove("recordId");
                json.put("performedAt", "2026-11-2" + day + "T09:00:00Z");
                json.put("recordedAt", "2026-11-2" + day + "T10:00:00Z");
              });
      post("/v1/cases/again/batteries", battery).then().statusCode(201);
      Response decision = post("/v1/cases/again/decisions", latest());
      decision.then().statusCode(201).body("repeatLooks.batteries", equalTo(attempt));
      long index = Long.parseLong(decision.header("Evenside-Ledger-Index"));
      assertThat(index).isGreaterThan(before);
      before = index;
    }
  }

  private static String latest() {
    return Examples.changed("valid/decision-request/by-milestone", json -> json.remove("asOf"));
  }

  /** Addresses in what is sent are text: no route, no header and no token makes us call them. */
  @Test
  void api7_addressInARequest_isNeverCalled() throws IOException {
    Consumer<ObjectNode> lures =
        json -> {
          json.put("$schema", LURE).put("$ref", LURE).put("$id", LURE);
          json.putObject("extensions").put(LURE, LURE);
        };
    post("/v1/cases/c/batteries", Examples.changed("valid/battery/strength-and-hops", lures));
    post("/v1/cases/c/sessions", Examples.changed("valid/session/first-run", lures));
    post("/v1/cases/c/decisions", Examples.changed("valid/decision-request/by-milestone", lures));
    post("/v1/criteria-sets", Examples.changed("valid/criteria-set/at-least-three-of-four", lures));
    for (String kind : List.of("case", "battery", "session", "criteria-set")) {
      post("/v1/checks/" + kind, "{\"$schema\":\"" + LURE + "\",\"$ref\":\"" + LURE + "\"}");
    }
    for (String header : List.of("Referer", "X-Forwarded-Host", "Link", "Callback")) {
      as(SERVICE.http()).header(header, LURE).get("/v1/decisions");
    }
    for (String token : SERVER.pointingTo(LURE, LiveService.NOW)) {
      SERVICE
          .http()
          .header("Authorization", "Bearer " + token)
          .get("/v1/decisions")
          .then()
          .statusCode(401);
    }
    LISTENER.setSoTimeout(300);
    assertThatThrownBy(LISTENER::accept).isInstanceOf(SocketTimeoutException.class);
    LISTENER.close();
  }

  /** Every listed operation says who may call it, and none is there twice under another version. */
  @Test
  void api9_operations_areInventoriedWithTheirAccess() {
    for (JsonNode path : Repository.openApi().path("paths")) {
      for (JsonNode operation : path) {
        String id = operation.path("operationId").asString();
        assertThat(operation.path("security").isArray()).as(id).isTrue();
        assertThat(operation.path("deprecated").asBoolean(false)).as(id).isFalse();
      }
    }
    assertThat(Repository.openApi().path("paths").propertyNames())
        .noneMatch(path -> path.matches("/v[02-9].*"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"/v1/decisions", "/v1/cases/c", "/livez"})
  void api8_answer_carriesItsSecurityHeaders(String path) {
    Response answer = as(SERVICE.http()).header("X-Test", UUID.randomUUID()).get(path);
    assertThat(answer.header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(answer.header("Content-Security-Policy")).contains("default-src 'none'");
    assertThat(answer.header("Access-Control-Allow-Origin")).isNull();
    assertThat(answer.header("Set-Cookie")).isNull();
    assertThat(answer.header("Server")).isNull();
  }
}

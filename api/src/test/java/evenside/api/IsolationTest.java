package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.not;

import evenside.api.http.Scope;
import evenside.api.openapi.Repository;
import evenside.api.problem.ProblemType;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * One clinic never sees another: what is the other's is answered as what is not there, to the byte.
 * OWASP API1:2023, object level authorization.
 */
class IsolationTest {
  @RegisterExtension static final LiveService SERVICE = LiveService.guarded();

  private static final String CASE = "knee-of-north";
  private static final String EMPTY = "{\"schemaVersion\":\"1.0\"}";

  private static final Map<String, String> BODIES =
      Map.of(
          "addBattery",
          Examples.battery(),
          "addSession",
          Examples.session(),
          "decide",
          Examples.decisionRequest(),
          "adoptPlan",
          Examples.adoptedPlan(),
          "determine",
          Examples.text("valid/determination/deferred"),
          "replay",
          EMPTY,
          "addFhirObservations",
          Examples.fhirObservations("hop-1", 126),
          "whatIf",
          "{\"schemaVersion\":\"1.0\",\"asOf\":\"2026-10-01\"}");

  /** What belongs to the clinic north, by the name of its path parameter. */
  private static final Map<String, String> NORTHERN = new LinkedHashMap<>();

  private static String north = "";
  private static String south = "";
  private static String erasedDecision = "";
  private static String southernDecision = "";

  @BeforeAll
  static void record() {
    north = SERVICE.key("north", "gym", Scope.values());
    south = SERVICE.key("south", "gym", Scope.values());
    recordCase(north, CASE);
    NORTHERN.put("caseId", CASE);
    NORTHERN.put("batteryId", add(north, "/v1/cases/" + CASE + "/batteries", "addBattery"));
    NORTHERN.put("sessionId", add(north, "/v1/cases/" + CASE + "/sessions", "addSession"));
    NORTHERN.put("decisionId", add(north, "/v1/cases/" + CASE + "/decisions", "decide"));
    NORTHERN.put("planId", add(north, "/v1/cases/" + CASE + "/plans", "adoptPlan"));
    String determinations = "/v1/decisions/" + NORTHERN.get("decisionId") + "/determinations";
    NORTHERN.put("determinationId", add(north, determinations, "determine"));
    recordCase(north, "gone");
    erasedDecision = add(north, "/v1/cases/gone/decisions", "decide");
    NORTHERN.put("erasureId", located(as(north, erasure("gone")).post("/v1/erasures")));
    as(north, Examples.ownCriteriaSet("1")).post("/v1/criteria-sets").then().statusCode(201);
    NORTHERN.put("jobId", job(north));
    recordCase(south, "knee-of-south");
    southernDecision = add(south, "/v1/cases/knee-of-south/decisions", "decide");
  }

  private static void recordCase(String token, String caseId) {
    as(token, Examples.kneeCase()).put("/v1/cases/" + caseId).then().statusCode(201);
  }

  private static String add(String token, String path, String operation) {
    return located(as(token, BODIES.get(operation)).post(path));
  }

  private static String job(String token) {
    String place =
        as(token, "{\"kind\":\"case\",\"caseId\":\"k\",\"body\":{}}")
            .contentType("application/x-ndjson")
            .header("Prefer", "respond-async")
            .post("/v1/bulk")
            .header("Location");
    return place.substring(place.lastIndexOf('/') + 1);
  }

  private static String located(Response made) {
    assertThat(made.statusCode()).as(made.asString()).isEqualTo(201);
    String place = made.header("Location");
    return place.substring(place.lastIndexOf('/') + 1);
  }

  private static String erasure(String caseId) {
    return Examples.changed("valid/erasure-request/everything", json -> json.put("caseId", caseId));
  }

  private static RequestSpecification as(String token, String body) {
    return SERVICE.record(body).header("Authorization", "Bearer " + token);
  }

  private static RequestSpecification as(String token) {
    return SERVICE.http().header("Authorization", "Bearer " + token);
  }

  /** Every operation on something of a clinic, with the other's ids in all places. */
  @TestFactory
  Stream<DynamicTest> thing_ofAnotherClinic_isAnsweredAsNothing() {
    List<DynamicTest> tests = new ArrayList<>();
    for (Map.Entry<String, JsonNode> path : Repository.openApi().path("paths").properties()) {
      boolean about = NORTHERN.keySet().stream().anyMatch(id -> path.getKey().contains(id + "}"));
      for (Map.Entry<String, JsonNode> one : path.getValue().properties()) {
        String id = one.getValue().path("operationId").asString();
        if (about && !id.equals("putCase")) {
          String method = one.getKey().toUpperCase(Locale.ROOT);
          tests.add(DynamicTest.dynamicTest(id, () -> compare(id, method, path.getKey())));
        }
      }
    }
    assertThat(tests).hasSizeGreaterThan(20);
    return tests.stream();
  }

  private static void compare(String id, String method, String template) {
    String query = query(id);
    String theirs = filled(template, NORTHERN) + query;
    Map<String, String> nobodys = new LinkedHashMap<>(NORTHERN);
    nobodys.replaceAll(
        (name, old) -> name.equals("caseId") ? "nobody" : UUID.randomUUID().toString());
    Response foreign = send(south, id, method, theirs);
    Response nothing = send(south, id, method, filled(template, nobodys) + query);
    assertThat(foreign.statusCode()).as(theirs).isEqualTo(404);
    assertThat(seen(foreign)).isEqualTo(seen(nothing));
    // The ids are right: their owner finds the thing.
    assertThat(send(north, id, method, theirs).statusCode()).as(theirs).isIn(200, 201);
  }

  /** The FHIR forms of single records, whose ids stand under one more name. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "DiagnosticReport/batteryId",
        "Procedure/sessionId",
        "GuidanceResponse/decisionId",
        "CarePlan/planId",
        "ClinicalImpression/determinationId",
        "Provenance/decisionId"
      })
  void fhirForm_ofAnotherClinic_isAnsweredAsNothing(String place) {
    String[] parts = place.split("/");
    String type = "/v1/fhir/" + parts[0] + "/";
    String theirs = type + NORTHERN.get(parts[1]);
    Response foreign = as(south).get(theirs);
    assertThat(foreign.statusCode()).as(theirs).isEqualTo(404);
    assertThat(seen(foreign)).isEqualTo(seen(as(south).get(type + UUID.randomUUID())));
    assertThat(as(north).get(theirs).statusCode()).as(theirs).isEqualTo(200);
  }

  private static String query(String id) {
    return switch (id) {
      case "proposePlan" -> "?milestone=start-running";
      case "getChanges" -> "?since=" + NORTHERN.get("decisionId");
      default -> "";
    };
  }

  private static String filled(String template, Map<String, String> ids) {
    String path = template;
    for (Map.Entry<String, String> id : ids.entrySet()) {
      path = path.replace("{" + id.getKey() + "}", id.getValue());
    }
    assertThat(path).doesNotContain("{");
    return path;
  }

  private static Response send(String token, String id, String method, String path) {
    if (method.equals("GET")) {
      return as(token).get(path);
    }
    RequestSpecification request = as(token, BODIES.get(id));
    if (id.equals("addFhirObservations")) {
      request.contentType("application/fhir+json");
    }
    return request.request(method, path);
  }

  /** All of an answer but the request's own id and time. */
  private static String seen(Response response) {
    StringBuilder seen = new StringBuilder().append(response.statusCode()).append('\n');
    response.headers().asList().stream()
        .filter(header -> !List.of("Request-Id", "Date").contains(header.getName()))
        .map(header -> header.getName() + ": " + header.getValue() + "\n")
        .sorted()
        .forEach(seen::append);
    return seen + response.asString().replaceFirst("urn:uuid:[0-9a-f-]+", "");
  }

  /** That something was erased is the other clinic's own affair too. */
  @ParameterizedTest
  @ValueSource(strings = {"", "/evidence", "/evidence.tlog-proof", "/determinations"})
  void thing_thatAnotherClinicErased_isAnsweredAsNothing(String part) {
    Response erased = as(south).get("/v1/decisions/" + erasedDecision + part);
    Response nothing = as(south).get("/v1/decisions/" + UUID.randomUUID() + part);
    assertThat(seen(erased)).isEqualTo(seen(nothing)).startsWith("404");
  }

  /** Ids of another clinic inside a body or a query. */
  @Test
  void reference_toAnotherClinicsThing_isAnsweredAsToNothing() {
    String changes = "/v1/decisions/" + southernDecision + "/changes?since=";
    Response since = as(south).get(changes + NORTHERN.get("decisionId"));
    assertThat(seen(since)).isEqualTo(seen(as(south).get(changes + UUID.randomUUID())));
    Response erasing = as(south, erasure(CASE)).post("/v1/erasures");
    assertThat(seen(erasing))
        .isEqualTo(seen(as(south, erasure("nobody")).post("/v1/erasures")))
        .startsWith("404");
    Response correcting = correct(NORTHERN.get("batteryId"));
    assertThat(seen(correcting)).isEqualTo(seen(correct(UUID.randomUUID().toString())));
    assertThat(correcting.statusCode()).isBetween(400, 499);
    as(north).get("/v1/cases/" + CASE).then().statusCode(200);
  }

  private static Response correct(String replaced) {
    String body =
        Examples.changed(
            "valid/battery/strength-and-hops",
            json -> {
              json.remove("recordId");
              json.put("replaces", replaced);
            });
    return as(south, body).post("/v1/cases/knee-of-south/batteries");
  }

  /** A case is named by its clinic, so two may have one of the same name. */
  @Test
  void case_ofTheSameName_isAnother() {
    byte[] before = as(north).get("/v1/cases/" + CASE).asByteArray();
    as(south, Examples.kneeCase()).put("/v1/cases/" + CASE + "-too").then().statusCode(201);
    recordCase(north, CASE + "-too");
    as(south).get("/v1/cases/" + CASE + "-too/batteries").then().body("items.size()", equalTo(0));
    assertThat(as(north).get("/v1/cases/" + CASE).asByteArray()).isEqualTo(before);
  }

  @Test
  void list_holdsTheClinicsOwnAlone() {
    for (String list :
        List.of("/v1/decisions", "/v1/erasures", "/v1/accesses", "/v1/criteria-sets")) {
      String answer = as(south).get(list).asString();
      NORTHERN.values().forEach(id -> assertThat(answer).as(list).doesNotContain(id));
      assertThat(answer).as(list).doesNotContain("house-checkpoint");
    }
    assertThat(as(north).get("/v1/decisions").asString()).contains(NORTHERN.get("decisionId"));
    assertThat(as(north).get("/v1/criteria-sets").asString()).contains("house-checkpoint");
    as(south)
        .get("/v1/decisions?caseId=" + CASE)
        .then()
        .statusCode(200)
        .body("items.size()", equalTo(0));
    as(south)
        .get("/v1/accesses?decisionId=" + NORTHERN.get("decisionId"))
        .then()
        .body("items.size()", equalTo(0));
  }

  @Test
  void criteriaSet_ofAnotherClinic_isUnknown() {
    String path = "/v1/criteria-sets/house-checkpoint/1";
    as(north).get(path).then().statusCode(200);
    Response foreign = as(south).get(path);
    Response nothing = as(south).get("/v1/criteria-sets/no-such-set/1");
    assertThat(seen(foreign)).isEqualTo(seen(nothing)).startsWith("404");
    String other = SERVICE.key("west", "gym", Scope.values());
    as(other, Examples.ownCriteriaSet("1")).post("/v1/criteria-sets").then().statusCode(201);
  }

  @Test
  void cursor_ofAnotherClinic_isRefused() {
    add(north, "/v1/cases/" + CASE + "/decisions", "decide");
    String next = as(north).get("/v1/decisions?limit=1").path("next");
    as(north).get("/v1/decisions?limit=1&after=" + next).then().statusCode(200);
    as(south)
        .get("/v1/decisions?limit=1&after=" + next)
        .then()
        .statusCode(400)
        .body("type", equalTo(ProblemType.BAD_CURSOR.uri()));
  }

  /** Else a key of the one would replay the other's answer. */
  @Test
  void idempotencyKey_isTheClinicsOwn() {
    String key = UUID.randomUUID().toString();
    recordCase(north, "twin");
    recordCase(south, "twin");
    Response first = decide(north, "twin", key);
    Response second = decide(south, "twin", key);
    assertThat(second.statusCode()).isEqualTo(201);
    assertThat(second.header("Idempotency-Replayed")).isNull();
    assertThat(second.<String>path("decisionId")).isNotEqualTo(first.<String>path("decisionId"));
    assertThat(decide(north, "twin", key).header("Idempotency-Replayed")).isEqualTo("true");
  }

  private static Response decide(String token, String caseId, String key) {
    return SERVICE
        .json(Examples.decisionRequest())
        .header("Authorization", "Bearer " + token)
        .header("Idempotency-Key", key)
        .post("/v1/cases/" + caseId + "/decisions");
  }

  @Test
  void ledger_isTheClinicsOwn() {
    String northern = as(north).get("/v1/ledger/checkpoint").asString();
    String southern = as(south).get("/v1/ledger/checkpoint").asString();
    assertThat(northern).startsWith("ledger.evenside.example/north\n");
    assertThat(southern).startsWith("ledger.evenside.example/south\n");
    as(south)
        .get("/v1/ledger/keys")
        .then()
        .statusCode(200)
        .body(containsString("/south"))
        .body(not(containsString("/north")));
    assertThat(as(south).get("/v1/ledger/entries").asByteArray())
        .isNotEqualTo(as(north).get("/v1/ledger/entries").asByteArray());
    // A clinic that only ever read has one too, so that its key can be pinned from the start.
    String auditor = SERVICE.key("east", "auditor", Scope.AUDIT_READ);
    as(auditor)
        .get("/v1/ledger/checkpoint")
        .then()
        .statusCode(200)
        .body(containsString("ledger.evenside.example/east"));
  }

  /** Whose record it is follows from the credentials, and from nothing in the request. */
  @ParameterizedTest
  @ValueSource(
      strings = {"X-Clinic", "Clinic", "X-Tenant-Id", "X-Forwarded-User", "X-Original-URL"})
  void clinic_isNotChosenByAHeader(String header) {
    as(south)
        .header(header, "north")
        .get("/v1/decisions/" + NORTHERN.get("decisionId"))
        .then()
        .statusCode(404);
  }
}

package evenside.api;

import static evenside.api.LiveService.seen;
import static evenside.api.TwoClinics.CASE;
import static evenside.api.TwoClinics.erasure;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.not;

import evenside.api.access.Scope;
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

  private static TwoClinics clinics;

  @BeforeAll
  static void record() {
    clinics = new TwoClinics(SERVICE);
  }

  private static RequestSpecification north() {
    return clinics.as(clinics.north);
  }

  private static RequestSpecification south() {
    return clinics.as(clinics.south);
  }

  /** Every operation on something of a clinic, with the other's ids in all places. */
  @TestFactory
  Stream<DynamicTest> thing_ofAnotherClinic_isAnsweredAsNothing() {
    List<DynamicTest> tests = new ArrayList<>();
    for (Map.Entry<String, JsonNode> path : Repository.openApi().path("paths").properties()) {
      boolean about =
          clinics.northern.keySet().stream().anyMatch(id -> path.getKey().contains(id + "}"));
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
    String theirs = filled(template, clinics.northern) + query;
    Map<String, String> nobodys = new LinkedHashMap<>(clinics.northern);
    nobodys.replaceAll(
        (name, old) -> name.equals("caseId") ? "nobody" : UUID.randomUUID().toString());
    Response foreign = send(clinics.south, id, method, theirs);
    Response nothing = send(clinics.south, id, method, filled(template, nobodys) + query);
    assertThat(foreign.statusCode()).as(theirs).isEqualTo(404);
    assertThat(seen(foreign)).isEqualTo(seen(nothing));
    // The ids are right: their owner finds the thing.
    assertThat(send(clinics.north, id, method, theirs).statusCode()).as(theirs).isIn(200, 201);
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
    String theirs = type + clinics.northern.get(parts[1]);
    Response foreign = south().get(theirs);
    assertThat(foreign.statusCode()).as(theirs).isEqualTo(404);
    assertThat(seen(foreign)).isEqualTo(seen(south().get(type + UUID.randomUUID())));
    assertThat(north().get(theirs).statusCode()).as(theirs).isEqualTo(200);
  }

  private static String query(String id) {
    return switch (id) {
      case "proposePlan" -> "?milestone=start-running";
      case "getChanges" -> "?since=" + clinics.northern.get("decisionId");
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
      return clinics.as(token).get(path);
    }
    RequestSpecification request = clinics.as(token, TwoClinics.BODIES.get(id));
    if (id.equals("addFhirObservations")) {
      request.contentType("application/fhir+json");
    }
    return request.request(method, path);
  }

  @Test
  void determination_namesTheClientWhoseKeySentIt() {
    String place = "/v1/determinations/" + clinics.northern.get("determinationId");
    assertThat(clinics.as(clinics.north).get(place).path("client").toString()).isEqualTo("gym");
  }

  /** That something was erased is the other clinic's own affair too. */
  @ParameterizedTest
  @ValueSource(strings = {"", "/evidence", "/evidence.tlog-proof", "/determinations"})
  void thing_thatAnotherClinicErased_isAnsweredAsNothing(String part) {
    Response erased = south().get("/v1/decisions/" + clinics.erasedDecision + part);
    Response nothing = south().get("/v1/decisions/" + UUID.randomUUID() + part);
    assertThat(seen(erased)).isEqualTo(seen(nothing)).startsWith("404");
  }

  /** Ids of another clinic inside a body or a query. */
  @Test
  void reference_toAnotherClinicsThing_isAnsweredAsToNothing() {
    String changes = "/v1/decisions/" + clinics.southernDecision + "/changes?since=";
    Response since = south().get(changes + clinics.northern.get("decisionId"));
    assertThat(seen(since)).isEqualTo(seen(south().get(changes + UUID.randomUUID())));
    Response erasing = clinics.as(clinics.south, erasure(CASE)).post("/v1/erasures");
    assertThat(seen(erasing))
        .isEqualTo(seen(clinics.as(clinics.south, erasure("nobody")).post("/v1/erasures")))
        .startsWith("404");
    Response correcting = correct(clinics.northern.get("batteryId"));
    assertThat(seen(correcting)).isEqualTo(seen(correct(UUID.randomUUID().toString())));
    assertThat(correcting.statusCode()).isBetween(400, 499);
    north().get("/v1/cases/" + CASE).then().statusCode(200);
  }

  private static Response correct(String replaced) {
    String body =
        Examples.changed(
            "valid/battery/strength-and-hops",
            json -> {
              json.remove("recordId");
              json.put("replaces", replaced);
            });
    return clinics.as(clinics.south, body).post("/v1/cases/knee-of-south/batteries");
  }

  /** A case is named by its clinic, so two may have one of the same name. */
  @Test
  void case_ofTheSameName_isAnother() {
    byte[] before = north().get("/v1/cases/" + CASE).asByteArray();
    clinics
        .as(clinics.south, Examples.kneeCase())
        .put("/v1/cases/" + CASE + "-too")
        .then()
        .statusCode(201);
    clinics.recordCase(clinics.north, CASE + "-too");
    south().get("/v1/cases/" + CASE + "-too/batteries").then().body("items.size()", equalTo(0));
    assertThat(north().get("/v1/cases/" + CASE).asByteArray()).isEqualTo(before);
  }

  @Test
  void list_holdsTheClinicsOwnAlone() {
    for (String list :
        List.of("/v1/decisions", "/v1/erasures", "/v1/accesses", "/v1/criteria-sets")) {
      String answer = south().get(list).asString();
      clinics.northern.values().forEach(id -> assertThat(answer).as(list).doesNotContain(id));
      assertThat(answer).as(list).doesNotContain("house-checkpoint");
    }
    assertThat(north().get("/v1/decisions").asString())
        .contains(clinics.northern.get("decisionId"));
    assertThat(north().get("/v1/criteria-sets").asString()).contains("house-checkpoint");
    south()
        .get("/v1/decisions?caseId=" + CASE)
        .then()
        .statusCode(200)
        .body("items.size()", equalTo(0));
    south()
        .get("/v1/accesses?decisionId=" + clinics.northern.get("decisionId"))
        .then()
        .body("items.size()", equalTo(0));
  }

  @Test
  void criteriaSet_ofAnotherClinic_isUnknown() {
    String path = "/v1/criteria-sets/house-checkpoint/1";
    north().get(path).then().statusCode(200);
    Response foreign = south().get(path);
    Response nothing = south().get("/v1/criteria-sets/no-such-set/1");
    assertThat(seen(foreign)).isEqualTo(seen(nothing)).startsWith("404");
    String other = SERVICE.key("west", "gym", Scope.values());
    clinics
        .as(other, Examples.ownCriteriaSet("1"))
        .post("/v1/criteria-sets")
        .then()
        .statusCode(201);
  }

  @Test
  void cursor_ofAnotherClinic_isRefused() {
    clinics.add(clinics.north, "/v1/cases/" + CASE + "/decisions", "decide");
    String next = north().get("/v1/decisions?limit=1").path("next");
    north().get("/v1/decisions?limit=1&after=" + next).then().statusCode(200);
    south()
        .get("/v1/decisions?limit=1&after=" + next)
        .then()
        .statusCode(400)
        .body("type", equalTo(ProblemType.BAD_CURSOR.uri()));
  }

  /** Else a key of the one would replay the other's answer. */
  @Test
  void idempotencyKey_isTheClinicsOwn() {
    String key = UUID.randomUUID().toString();
    clinics.recordCase(clinics.north, "twin");
    clinics.recordCase(clinics.south, "twin");
    Response first = decide(clinics.north, "twin", key);
    Response second = decide(clinics.south, "twin", key);
    assertThat(second.statusCode()).isEqualTo(201);
    assertThat(second.header("Idempotency-Replayed")).isNull();
    assertThat(second.<String>path("decisionId")).isNotEqualTo(first.<String>path("decisionId"));
    assertThat(decide(clinics.north, "twin", key).header("Idempotency-Replayed")).isEqualTo("true");
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
    String northern = north().get("/v1/ledger/checkpoint").asString();
    String southern = south().get("/v1/ledger/checkpoint").asString();
    assertThat(northern).startsWith("ledger.evenside.example/north\n");
    assertThat(southern).startsWith("ledger.evenside.example/south\n");
    south()
        .get("/v1/ledger/keys")
        .then()
        .statusCode(200)
        .body(containsString("/south"))
        .body(not(containsString("/north")));
    assertThat(south().get("/v1/ledger/entries").asByteArray())
        .isNotEqualTo(north().get("/v1/ledger/entries").asByteArray());
    // A clinic that only ever read has one too, so that its key can be pinned from the start.
    String auditor = SERVICE.key("east", "auditor", Scope.AUDIT_READ);
    clinics
        .as(auditor)
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
    south()
        .header(header, "north")
        .get("/v1/decisions/" + clinics.northern.get("decisionId"))
        .then()
        .statusCode(404);
  }
}

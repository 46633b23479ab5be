package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.openapi.Repository;
import evenside.api.page.Assets;
import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.extension.RegisterExtension;
import tools.jackson.databind.JsonNode;

/** Every status that {@code openapi.yaml} documents is really answered, for every operation. */
class EveryStatusTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String NO_ID = "00000000-0000-7000-8000-000000000000";
  private static final Map<String, Sample> SAMPLES = new LinkedHashMap<>();
  private static final String DETERMINATION =
      Examples.changed("valid/determination/deferred", json -> {});

  private static final String TOO_LARGE = " ".repeat(1 << 20) + "{}";
  private static final String TOO_MANY_LINES = "{}\n".repeat(100_001);

  private static String otherDecision = "";
  private static String foreignDecision = "";
  private static String erasedDecision = "";
  private static String erasedDetermination = "";

  /**
   * Answered only while another request holds a lock, which {@link IdempotencyTest} does, or by a
   * service whose ledger is off, which {@link LedgerOffTest} is.
   */
  private static final List<String> ELSEWHERE =
      List.of("decide 409", "adoptPlan 409", "getProof 409", "getCheckpoint 404");

  @BeforeAll
  static void recordSomething() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    String battery =
        SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").path("batteryId");
    String session =
        SERVICE.record(Examples.session()).post("/v1/cases/c/sessions").path("sessionId");
    String decision =
        SERVICE.record(Examples.decisionRequest()).post("/v1/cases/c/decisions").path("decisionId");
    String plan = SERVICE.record(Examples.adoptedPlan()).post("/v1/cases/c/plans").path("planId");
    SAMPLES.put("listSchemas", Sample.get("/v1/schemas", ""));
    SAMPLES.put("getSchemaArchive", Sample.get("/v1/schemas.zip", ""));
    SAMPLES.put("getSchema", Sample.get("/v1/schemas/1.0/case", "/v1/schemas/0.9/case"));
    SAMPLES.put("listMeasures", Sample.get("/v1/measures", ""));
    SAMPLES.put("getMeasure", Sample.get("/v1/measures/single-hop-distance", "/v1/measures/nope"));
    SAMPLES.put("listCriteriaSets", Sample.get("/v1/criteria-sets", ""));
    SERVICE.json(Examples.ownCriteriaSet("1")).post("/v1/criteria-sets").then().statusCode(201);
    SAMPLES.put(
        "publishCriteriaSet", Sample.post("/v1/criteria-sets", "", Examples.ownCriteriaSet("1")));
    SAMPLES.put(
        "getCriteriaSet",
        Sample.get("/v1/criteria-sets/delaware-oslo/2016.1", "/v1/criteria-sets/delaware-oslo/1"));
    SAMPLES.put("listProgressions", Sample.get("/v1/progressions", ""));
    SAMPLES.put(
        "getProgression",
        Sample.get(
            "/v1/progressions/running-eight-levels/2018",
            "/v1/progressions/running-eight-levels/1"));
    SAMPLES.put("listExercises", Sample.get("/v1/exercises", ""));
    SAMPLES.put("checkDocument", Sample.post("/v1/checks/case", "/v1/checks/nope", "{}"));
    SAMPLES.put("assess", Sample.post("/v1/assessments", "", Examples.assessmentRequest()));
    SAMPLES.put("putCase", Sample.put("/v1/cases/c", "/v1/cases/%20", Examples.kneeCase()));
    SAMPLES.put("getCase", Sample.get("/v1/cases/c", "/v1/cases/nope"));
    SAMPLES.put(
        "addBattery",
        Sample.post("/v1/cases/c/batteries", "/v1/cases/nope/batteries", Examples.battery()));
    SAMPLES.put("listBatteries", Sample.get("/v1/cases/c/batteries", "/v1/cases/nope/batteries"));
    SAMPLES.put("getBattery", Sample.get("/v1/batteries/" + battery, "/v1/batteries/" + NO_ID));
    SAMPLES.put(
        "addSession",
        Sample.post("/v1/cases/c/sessions", "/v1/cases/nope/sessions", Examples.session()));
    SAMPLES.put("listSessions", Sample.get("/v1/cases/c/sessions", "/v1/cases/nope/sessions"));
    SAMPLES.put("getSession", Sample.get("/v1/sessions/" + session, "/v1/sessions/" + NO_ID));
    SAMPLES.put("getAdvice", Sample.get("/v1/cases/c/advice", "/v1/cases/nope/advice"));
    SAMPLES.put(
        "decide",
        Sample.post(
            "/v1/cases/c/decisions", "/v1/cases/nope/decisions", Examples.decisionRequest()));
    SAMPLES.put("listDecisions", Sample.get("/v1/cases/c/decisions", "/v1/cases/nope/decisions"));
    SAMPLES.put(
        "getCorrections",
        Sample.get(
            "/v1/batteries/" + battery + "/corrections",
            "/v1/batteries/" + NO_ID + "/corrections"));
    SAMPLES.put("searchDecisions", Sample.get("/v1/decisions", ""));
    SAMPLES.put("getDecision", Sample.get("/v1/decisions/" + decision, "/v1/decisions/" + NO_ID));
    auditSamples(decision);
    SAMPLES.put("getProgress", Sample.get("/v1/cases/c/progress", "/v1/cases/nope/progress"));
    SAMPLES.put(
        "proposePlan",
        Sample.get(
            "/v1/cases/c/plan?milestone=start-running",
            "/v1/cases/nope/plan?milestone=start-running"));
    SAMPLES.put("getMilestones", Sample.get("/v1/cases/c/milestones", "/v1/cases/nope/milestones"));
    SAMPLES.put(
        "adoptPlan",
        Sample.post("/v1/cases/c/plans", "/v1/cases/nope/plans", Examples.adoptedPlan()));
    SAMPLES.put("listPlans", Sample.get("/v1/cases/c/plans", "/v1/cases/nope/plans"));
    SAMPLES.put("getPlan", Sample.get("/v1/plans/" + plan, "/v1/plans/" + NO_ID));
    SAMPLES.put(
        "getAdherence",
        Sample.get("/v1/plans/" + plan + "/adherence", "/v1/plans/" + NO_ID + "/adherence"));
    SAMPLES.put("getCohort", Sample.get("/v1/cohort?milestone=start-running", ""));
    bulkSamples();
    exchangeSamples(battery);
    SAMPLES.put("getLiveness", Sample.get("/livez", ""));
    SAMPLES.put("getReadiness", Sample.get("/readyz", ""));
    SAMPLES.put("getMetrics", Sample.get("/metrics", ""));
    SAMPLES.put("getOpenApi", Sample.get("/openapi.yaml", ""));
    SAMPLES.put("getProblem", Sample.get("/problems/not-found", "/problems/nope"));
    pageSamples();
  }

  private static void pageSamples() {
    SAMPLES.put("getHome", Sample.get("/", ""));
    SAMPLES.put("getDocs", Sample.get("/docs", ""));
    SAMPLES.put("getProblems", Sample.get("/docs/problems", ""));
    SAMPLES.put("getMeasuresPage", Sample.get("/docs/measures", ""));
    SAMPLES.put(
        "getMeasurePage", Sample.get("/docs/measures/single-hop-distance", "/docs/measures/nope"));
    SAMPLES.put(
        "getCriteriaSetPage",
        Sample.get(
            "/docs/criteria-sets/delaware-oslo/2020.1", "/docs/criteria-sets/delaware-oslo/1"));
    SAMPLES.put(
        "getProgressionPage",
        Sample.get(
            "/docs/progressions/running-eight-levels/2018", "/docs/progressions/nope-nope/1"));
    SAMPLES.put(
        "getSchemaPage", Sample.get("/docs/schemas/1.0/battery", "/docs/schemas/0.9/battery"));
    SAMPLES.put("getApiReference", Sample.get("/docs/api", ""));
    SAMPLES.put("getGuide", Sample.get("/docs/guide", ""));
    SAMPLES.put("getChangelog", Sample.get("/docs/changes", ""));
    SAMPLES.put("getAsset", Sample.get(Assets.style(), "/docs/assets/nope.css"));
  }

  private static void exchangeSamples(String battery) {
    Sample observations =
        Sample.post(
            "/v1/cases/c/fhir-observations",
            "/v1/cases/nope/fhir-observations",
            Examples.fhirObservations("hop-1", 126));
    assertThat(observations.send(SERVICE).statusCode()).isEqualTo(201);
    SAMPLES.put("addFhirObservations", observations);
    SAMPLES.put("listFhirCodeSystems", Sample.get("/v1/fhir/CodeSystem", ""));
    SAMPLES.put(
        "getFhirCodeSystem",
        Sample.get("/v1/fhir/CodeSystem/evenside-terms", "/v1/fhir/CodeSystem/nope"));
    SAMPLES.put(
        "getFhirResource",
        Sample.get("/v1/fhir/DiagnosticReport/" + battery, "/v1/fhir/GuidanceResponse/" + NO_ID));
    SAMPLES.put("discoverCdsServices", Sample.get("/cds-services", ""));
    SAMPLES.put(
        "callCdsService",
        Sample.post("/cds-services/readiness", "/cds-services/nope", hook("S-0417")));
  }

  private static void bulkSamples() {
    String line = "{\"kind\":\"decision-request\",\"caseId\":\"c\",\"body\":{}}";
    Sample lines = Sample.post("/v1/bulk", "", line);
    String job =
        lines
            .send(SERVICE, request -> request.header("Prefer", "respond-async"))
            .then()
            .statusCode(202)
            .extract()
            .header("Location");
    SAMPLES.put("recordLines", lines);
    SAMPLES.put("getJob", Sample.get(job, "/v1/jobs/" + NO_ID));
    SAMPLES.put("getJobResults", Sample.get(job + "/results", "/v1/jobs/" + NO_ID + "/results"));
  }

  private static String hook(String patient) {
    return Examples.fhir("hook").replace("PATIENT", patient);
  }

  private static void auditSamples(String decision) {
    String at = "/v1/decisions/" + decision;
    String none = "/v1/decisions/" + NO_ID;
    String determination =
        SERVICE.record(DETERMINATION).post(at + "/determinations").path("determinationId");
    otherDecision =
        SERVICE.record(Examples.decisionRequest()).post("/v1/cases/c/decisions").path("decisionId");
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/other").then().statusCode(201);
    foreignDecision =
        SERVICE
            .record(Examples.decisionRequest())
            .post("/v1/cases/other/decisions")
            .path("decisionId");
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/gone").then().statusCode(201);
    erasedDecision =
        SERVICE
            .record(Examples.decisionRequest())
            .post("/v1/cases/gone/decisions")
            .path("decisionId");
    erasedDetermination =
        SERVICE
            .record(DETERMINATION)
            .post("/v1/decisions/" + erasedDecision + "/determinations")
            .path("determinationId");
    String erasure = SERVICE.record(erasureOf("gone")).post("/v1/erasures").path("erasureId");
    SAMPLES.put("getEvidence", Sample.get(at + "/evidence", none + "/evidence"));
    SAMPLES.put("getProof", Sample.get(at + "/evidence.tlog-proof", none + "/evidence.tlog-proof"));
    SAMPLES.put(
        "replay", Sample.post(at + "/replays", none + "/replays", "{\"schemaVersion\":\"1.0\"}"));
    SAMPLES.put(
        "whatIf",
        Sample.post(
            at + "/what-if",
            none + "/what-if",
            "{\"schemaVersion\":\"1.0\",\"asOf\":\"2026-10-01\"}"));
    SAMPLES.put(
        "getChanges",
        Sample.get(
            at + "/changes?since=" + otherDecision, none + "/changes?since=" + otherDecision));
    SAMPLES.put(
        "determine", Sample.post(at + "/determinations", none + "/determinations", DETERMINATION));
    SAMPLES.put("listDeterminations", Sample.get(at + "/determinations", none + "/determinations"));
    SAMPLES.put(
        "getDetermination",
        Sample.get("/v1/determinations/" + determination, "/v1/determinations/" + NO_ID));
    SAMPLES.put("erase", Sample.post("/v1/erasures", "/v1/erasures", erasureOf("nope")));
    SAMPLES.put("listErasures", Sample.get("/v1/erasures", ""));
    SAMPLES.put("getErasure", Sample.get("/v1/erasures/" + erasure, "/v1/erasures/" + NO_ID));
    SAMPLES.put("listAccesses", Sample.get("/v1/accesses", ""));
    SAMPLES.put("getCheckpoint", Sample.get("/v1/ledger/checkpoint", ""));
    SAMPLES.put("listLedgerKeys", Sample.get("/v1/ledger/keys", ""));
    SAMPLES.put(
        "getConsistency",
        Sample.get(
            "/v1/ledger/consistency?from=1&to=2", "/v1/ledger/consistency?from=1&to=99999999"));
    SAMPLES.put("listEntries", Sample.get("/v1/ledger/entries", ""));
  }

  private static String erasureOf(String caseId) {
    return Examples.changed("valid/erasure-request/everything", json -> json.put("caseId", caseId));
  }

  @TestFactory
  Stream<DynamicTest> status_documented_isAnswered() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode path : Repository.openApi().path("paths")) {
      for (JsonNode operation : path) {
        String id = operation.path("operationId").asString();
        for (String status : operation.path("responses").propertyNames()) {
          // A failing store is tried by UnavailableTest, a failing service by ProblemsTest.
          boolean serverFault = status.equals("default") || status.equals("503");
          // Asking for credentials is tried by RoleMatrixTest, asking too often by RateLimitTest.
          boolean elsewhere = serverFault || List.of("401", "429").contains(status);
          if (!elsewhere && !ELSEWHERE.contains(id + " " + status)) {
            tests.add(
                DynamicTest.dynamicTest(
                    id + " " + status,
                    () ->
                        assertThat(provoke(id, status).statusCode()).asString().isEqualTo(status)));
          }
        }
      }
    }
    return tests.stream();
  }

  @Test
  void operation_documented_hasASample() {
    List<String> ids = Repository.openApi().path("paths").findValuesAsString("operationId");
    assertThat(SAMPLES.keySet()).containsExactlyElementsOf(ids);
  }

  private static Response provoke(String id, String status) {
    Sample sample = SAMPLES.get(id);
    return switch (status) {
      case "200" -> sample.send(SERVICE);
      case "201" -> created(id, sample);
      case "202" -> sample.send(SERVICE, r -> r.header("Prefer", "respond-async"));
      case "304" ->
          sample.send(SERVICE, r -> r.header("If-None-Match", sample.send(SERVICE).header("ETag")));
      case "400" -> sample.at(more(sample, "nope=1")).send(SERVICE);
      case "403" -> sample.send(SERVICE, r -> r.header("Host", "evil.example"));
      case "404" -> sample.at(sample.unknown()).send(SERVICE);
      case "410" -> sample.at(erased(id, sample)).send(SERVICE);
      case "406" -> sample.send(SERVICE, r -> r.header("Accept", "text/csv"));
      case "409" -> conflicting(id, sample);
      case "412" ->
          id.equals("callCdsService")
              ? sample.with(hook("nobody")).send(SERVICE)
              : changedCase(sample)
                  .send(SERVICE, r -> r.header("If-Match", "\"" + "A".repeat(43) + "\""));
      case "413" ->
          sample.with(id.equals("recordLines") ? TOO_MANY_LINES : TOO_LARGE).send(SERVICE);
      case "414" -> sample.at(more(sample, "x=" + "a".repeat(4096))).send(SERVICE);
      case "415" -> sample.send(SERVICE, r -> r.contentType("text/plain"));
      case "422" -> unprocessable(id, sample).send(SERVICE);
      case "428" -> changedCase(sample).send(SERVICE);
      case "431" -> sample.send(SERVICE, r -> r.header("X-Large", "a".repeat(20_000)));
      default -> throw new AssertionError("nothing here provokes " + id + " " + status);
    };
  }

  private static Sample unprocessable(String id, Sample sample) {
    if (sample.body().isPresent()) {
      return sample.with("{}");
    }
    String path = sample.path().split("\\?", 2)[0];
    return sample.at(
        path + (id.equals("getMilestones") ? "?asOf=1999-12-31" : "?milestone=start-jumping"));
  }

  private static Response conflicting(String id, Sample sample) {
    return switch (id) {
      case "getEvidence" -> sample.at(more(sample, "since=99999999")).send(SERVICE);
      case "getChanges" ->
          sample.at(sample.path().replace(otherDecision, foreignDecision)).send(SERVICE);
      default -> sample.with(otherContent(id)).send(SERVICE);
    };
  }

  private static String more(Sample sample, String parameter) {
    return sample.path() + (sample.path().contains("?") ? "&" : "?") + parameter;
  }

  private static String erased(String id, Sample sample) {
    return id.equals("getDetermination")
        ? "/v1/determinations/" + erasedDetermination
        : sample.unknown().replace(NO_ID, erasedDecision);
  }

  private static Response created(String id, Sample sample) {
    return switch (id) {
      case "putCase" -> sample.at("/v1/cases/" + id).send(SERVICE);
      case "addBattery" ->
          sample.with(withoutRecordId("valid/battery/strength-and-hops")).send(SERVICE);
      case "addSession" -> sample.with(withoutRecordId("valid/session/first-run")).send(SERVICE);
      case "addFhirObservations" ->
          sample.with(Examples.fhirObservations("hop-2", 126)).send(SERVICE);
      case "publishCriteriaSet" -> sample.with(Examples.ownCriteriaSet("2")).send(SERVICE);
      case "erase" -> {
        SERVICE.json(Examples.kneeCase()).put("/v1/cases/again").then().statusCode(201);
        yield sample.with(erasureOf("again")).send(SERVICE);
      }
      default -> sample.send(SERVICE);
    };
  }

  private static Sample changedCase(Sample sample) {
    return sample.with(Examples.changed("valid/case/minimal", json -> json.put("birthYear", 1999)));
  }

  private static String otherContent(String id) {
    if (id.equals("publishCriteriaSet")) {
      return Examples.changed(
          "valid/criteria-set/at-least-three-of-four",
          json -> json.put("version", "1").put("title", "Another title"));
    }
    if (id.equals("addSession")) {
      return otherSession();
    }
    if (id.equals("addFhirObservations")) {
      return Examples.fhirObservations("hop-1", 127.5);
    }
    return Examples.changed(
        "valid/battery/strength-and-hops",
        json -> json.putObject("bodyMass").put("value", 70.5).put("unit", "kg"));
  }

  private static String otherSession() {
    return Examples.changed(
        "valid/session/first-run", json -> json.put("recordedAt", "2026-03-11T08:00:00+01:00"));
  }

  private static String withoutRecordId(String path) {
    return Examples.changed(path, json -> json.remove("recordId"));
  }
}

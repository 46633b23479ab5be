package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.page.Assets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * For every operation a request that succeeds, in the order of {@code openapi.yaml}, and in a
 * running service the things that they are about.
 */
final class Samples {
  static final String NO_ID = "00000000-0000-7000-8000-000000000000";
  private static final String DETERMINATION =
      Examples.changed("valid/determination/deferred", json -> {});

  /** Of the same case as the decision that the samples are about. */
  String otherDecision = "";

  /** Of another case. */
  String foreignDecision = "";

  String erasedDecision = "";
  String erasedDetermination = "";

  private final LiveService service;
  private final Map<String, Sample> byOperation = new LinkedHashMap<>();

  private Samples(LiveService service) {
    this.service = service;
  }

  /** Records what the requests are about. */
  static Samples recordedIn(LiveService service) {
    Samples samples = new Samples(service);
    samples.recordEverything();
    return samples;
  }

  Sample of(String operationId) {
    return byOperation.get(operationId);
  }

  List<String> operationIds() {
    return List.copyOf(byOperation.keySet());
  }

  private void get(String operationId, String path, String unknown) {
    byOperation.put(operationId, Sample.get(path, unknown));
  }

  private void post(String operationId, String path, String unknown, String body) {
    byOperation.put(operationId, Sample.post(path, unknown, body));
  }

  private void put(String operationId, String path, String unknown, String body) {
    byOperation.put(operationId, Sample.put(path, unknown, body));
  }

  private void recordEverything() {
    service.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    String battery =
        service.record(Examples.battery()).post("/v1/cases/c/batteries").path("batteryId");
    String session =
        service.record(Examples.session()).post("/v1/cases/c/sessions").path("sessionId");
    String decision =
        service.record(Examples.decisionRequest()).post("/v1/cases/c/decisions").path("decisionId");
    String plan = service.record(Examples.adoptedPlan()).post("/v1/cases/c/plans").path("planId");
    get("listSchemas", "/v1/schemas", "");
    get("getSchemaArchive", "/v1/schemas.zip", "");
    get("getSchema", "/v1/schemas/1.0/case", "/v1/schemas/0.9/case");
    get("listMeasures", "/v1/measures", "");
    get("getMeasure", "/v1/measures/single-hop-distance", "/v1/measures/nope");
    get("listCriteriaSets", "/v1/criteria-sets", "");
    service.json(Examples.ownCriteriaSet("1")).post("/v1/criteria-sets").then().statusCode(201);
    post("publishCriteriaSet", "/v1/criteria-sets", "", Examples.ownCriteriaSet("1"));
    get(
        "getCriteriaSet",
        "/v1/criteria-sets/delaware-oslo/2016.1",
        "/v1/criteria-sets/delaware-oslo/1");
    get("listProgressions", "/v1/progressions", "");
    get(
        "getProgression",
        "/v1/progressions/running-eight-levels/2018",
        "/v1/progressions/running-eight-levels/1");
    get("listExercises", "/v1/exercises", "");
    post("checkDocument", "/v1/checks/case", "/v1/checks/nope", "{}");
    post("assess", "/v1/assessments", "", Examples.assessmentRequest());
    put("putCase", "/v1/cases/c", "/v1/cases/%20", Examples.kneeCase());
    get("getCase", "/v1/cases/c", "/v1/cases/nope");
    post("addBattery", "/v1/cases/c/batteries", "/v1/cases/nope/batteries", Examples.battery());
    get("listBatteries", "/v1/cases/c/batteries", "/v1/cases/nope/batteries");
    get("getBattery", "/v1/batteries/" + battery, "/v1/batteries/" + NO_ID);
    post("addSession", "/v1/cases/c/sessions", "/v1/cases/nope/sessions", Examples.session());
    get("listSessions", "/v1/cases/c/sessions", "/v1/cases/nope/sessions");
    get("getSession", "/v1/sessions/" + session, "/v1/sessions/" + NO_ID);
    get("getAdvice", "/v1/cases/c/advice", "/v1/cases/nope/advice");
    post("decide", "/v1/cases/c/decisions", "/v1/cases/nope/decisions", Examples.decisionRequest());
    get("listDecisions", "/v1/cases/c/decisions", "/v1/cases/nope/decisions");
    get(
        "getCorrections",
        "/v1/batteries/" + battery + "/corrections",
        "/v1/batteries/" + NO_ID + "/corrections");
    get("searchDecisions", "/v1/decisions", "");
    get("getDecision", "/v1/decisions/" + decision, "/v1/decisions/" + NO_ID);
    auditSamples(decision);
    get("getProgress", "/v1/cases/c/progress", "/v1/cases/nope/progress");
    get(
        "proposePlan",
        "/v1/cases/c/plan?milestone=start-running",
        "/v1/cases/nope/plan?milestone=start-running");
    get("getMilestones", "/v1/cases/c/milestones", "/v1/cases/nope/milestones");
    post("adoptPlan", "/v1/cases/c/plans", "/v1/cases/nope/plans", Examples.adoptedPlan());
    get("listPlans", "/v1/cases/c/plans", "/v1/cases/nope/plans");
    get("getPlan", "/v1/plans/" + plan, "/v1/plans/" + NO_ID);
    get("getAdherence", "/v1/plans/" + plan + "/adherence", "/v1/plans/" + NO_ID + "/adherence");
    get("getCohort", "/v1/cohort?milestone=start-running", "");
    bulkSamples();
    exchangeSamples(battery);
    get("getLiveness", "/livez", "");
    get("getReadiness", "/readyz", "");
    get("getMetrics", "/metrics", "");
    get("getOpenApi", "/openapi.yaml", "");
    get("getProblem", "/problems/not-found", "/problems/nope");
    pageSamples();
  }

  private void pageSamples() {
    get("getHome", "/", "");
    get("getDocs", "/docs", "");
    get("getProblems", "/docs/problems", "");
    get("getMeasuresPage", "/docs/measures", "");
    get("getMeasurePage", "/docs/measures/single-hop-distance", "/docs/measures/nope");
    get(
        "getCriteriaSetPage",
        "/docs/criteria-sets/delaware-oslo/2020.1",
        "/docs/criteria-sets/delaware-oslo/1");
    get(
        "getProgressionPage",
        "/docs/progressions/running-eight-levels/2018",
        "/docs/progressions/nope-nope/1");
    get("getSchemaPage", "/docs/schemas/1.0/battery", "/docs/schemas/0.9/battery");
    get("getApiReference", "/docs/api", "");
    get("getGuide", "/docs/guide", "");
    get("getChangelog", "/docs/changes", "");
    get("getAsset", Assets.style(), "/docs/assets/nope.css");
  }

  private void exchangeSamples(String battery) {
    Sample observations =
        Sample.post(
            "/v1/cases/c/fhir-observations",
            "/v1/cases/nope/fhir-observations",
            Examples.fhirObservations("hop-1", 126));
    assertThat(observations.send(service).statusCode()).isEqualTo(201);
    byOperation.put("addFhirObservations", observations);
    get("listFhirCodeSystems", "/v1/fhir/CodeSystem", "");
    get("getFhirCodeSystem", "/v1/fhir/CodeSystem/evenside-terms", "/v1/fhir/CodeSystem/nope");
    get(
        "getFhirResource",
        "/v1/fhir/DiagnosticReport/" + battery,
        "/v1/fhir/GuidanceResponse/" + NO_ID);
    get("discoverCdsServices", "/cds-services", "");
    post("callCdsService", "/cds-services/readiness", "/cds-services/nope", hook("S-0417"));
  }

  private void bulkSamples() {
    String line = "{\"kind\":\"decision-request\",\"caseId\":\"c\",\"body\":{}}";
    Sample lines = Sample.post("/v1/bulk", "", line);
    String job =
        lines
            .send(service, request -> request.header("Prefer", "respond-async"))
            .then()
            .statusCode(202)
            .extract()
            .header("Location");
    byOperation.put("recordLines", lines);
    get("getJob", job, "/v1/jobs/" + NO_ID);
    get("getJobResults", job + "/results", "/v1/jobs/" + NO_ID + "/results");
  }

  static String hook(String patient) {
    return Examples.fhir("hook").replace("PATIENT", patient);
  }

  private void auditSamples(String decision) {
    String at = "/v1/decisions/" + decision;
    String none = "/v1/decisions/" + NO_ID;
    String determination =
        service.record(DETERMINATION).post(at + "/determinations").path("determinationId");
    otherDecision =
        service.record(Examples.decisionRequest()).post("/v1/cases/c/decisions").path("decisionId");
    service.json(Examples.kneeCase()).put("/v1/cases/other").then().statusCode(201);
    foreignDecision =
        service
            .record(Examples.decisionRequest())
            .post("/v1/cases/other/decisions")
            .path("decisionId");
    service.json(Examples.kneeCase()).put("/v1/cases/gone").then().statusCode(201);
    erasedDecision =
        service
            .record(Examples.decisionRequest())
            .post("/v1/cases/gone/decisions")
            .path("decisionId");
    erasedDetermination =
        service
            .record(DETERMINATION)
            .post("/v1/decisions/" + erasedDecision + "/determinations")
            .path("determinationId");
    String erasure = service.record(erasureOf("gone")).post("/v1/erasures").path("erasureId");
    get("getEvidence", at + "/evidence", none + "/evidence");
    get("getProof", at + "/evidence.tlog-proof", none + "/evidence.tlog-proof");
    post("replay", at + "/replays", none + "/replays", "{\"schemaVersion\":\"1.0\"}");
    post(
        "whatIf",
        at + "/what-if",
        none + "/what-if",
        "{\"schemaVersion\":\"1.0\",\"asOf\":\"2026-10-01\"}");
    get(
        "getChanges",
        at + "/changes?since=" + otherDecision,
        none + "/changes?since=" + otherDecision);
    post("determine", at + "/determinations", none + "/determinations", DETERMINATION);
    get("listDeterminations", at + "/determinations", none + "/determinations");
    get("getDetermination", "/v1/determinations/" + determination, "/v1/determinations/" + NO_ID);
    post("erase", "/v1/erasures", "/v1/erasures", erasureOf("nope"));
    get("listErasures", "/v1/erasures", "");
    get("getErasure", "/v1/erasures/" + erasure, "/v1/erasures/" + NO_ID);
    get("listAccesses", "/v1/accesses", "");
    get("getCheckpoint", "/v1/ledger/checkpoint", "");
    get("listLedgerKeys", "/v1/ledger/keys", "");
    get(
        "getConsistency",
        "/v1/ledger/consistency?from=1&to=2",
        "/v1/ledger/consistency?from=1&to=99999999");
    get("listEntries", "/v1/ledger/entries", "");
  }

  static String erasureOf(String caseId) {
    return Examples.changed("valid/erasure-request/everything", json -> json.put("caseId", caseId));
  }
}

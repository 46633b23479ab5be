package evenside.api.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.LiveService;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Every FHIR form of every kind of document, held to the official definitions of R4 and to the
 * published codes.
 *
 * <p>Source: HL7 FHIR R4 (4.0.1), by the validator of HAPI FHIR 8.8.1.
 */
class FhirTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final List<String> BATTERIES =
      List.of(
          "early-signs",
          "every-measure",
          "not-everything-done",
          "questionnaires",
          "questionnaires-with-items-missing",
          "strength-and-hops");
  private static final List<String> SESSIONS =
      List.of(
          "calf-pain-on-a-day-of-rest",
          "clearance",
          "everything",
          "first-run",
          "home-week",
          "rest-days");

  /** Paths that answer in FHIR, with their Bundles. */
  private static final Map<String, JsonNode> BUNDLES = new LinkedHashMap<>();

  private static PublishedCodes codes =
      new PublishedCodes(JsonMapper.shared().createObjectNode(), List.of());

  @BeforeAll
  static void recordEverything() {
    List<String> paths = new ArrayList<>();
    int number = 0;
    for (String battery : BATTERIES) {
      String caseId = "b" + number++;
      addCase(caseId, battery("valid/battery/" + battery));
      String id = recorded(caseId, "batteries", battery("valid/battery/" + battery), "batteryId");
      paths.add("/v1/batteries/" + id);
      List<JsonNode> sets = LiveService.CONTRACT.criteriaSets();
      boolean all = battery.equals("strength-and-hops") || battery.equals("not-everything-done");
      for (JsonNode set : all ? sets : sets.subList(number - 1, number)) {
        paths.add("/v1/decisions/" + decided(caseId, set));
      }
      paths.add("/v1/cases/" + caseId + "/plan?milestone=return-to-competition");
      paths.add("/v1/cases/" + caseId + "/plan?milestone=start-running");
    }
    addCase("alarming", battery("valid/battery/strength-and-hops"));
    String battery = recorded("alarming", "batteries", alarming(), "batteryId");
    paths.add("/v1/batteries/" + battery);
    paths.add("/v1/decisions/" + decided("alarming", LiveService.CONTRACT.criteriaSets().get(0)));
    for (String session : SESSIONS) {
      String caseId = "s" + number++;
      addCase(caseId, battery("valid/session/" + session));
      String id = recorded(caseId, "sessions", battery("valid/session/" + session), "sessionId");
      paths.add("/v1/sessions/" + id);
    }
    for (String plan : List.of("as-proposed", "smallest", "everything")) {
      String id = recorded("b0", "plans", Examples.text("valid/adopted-plan/" + plan), "planId");
      paths.add("/v1/plans/" + id);
    }
    addDeterminations(paths);
    for (JsonNode set : LiveService.CONTRACT.criteriaSets()) {
      paths.add("/v1/criteria-sets/" + name(set));
    }
    String own = Examples.ownCriteriaSet("1");
    paths.add(SERVICE.json(own).post("/v1/criteria-sets").header("Location"));
    paths.add("/v1/fhir/CodeSystem");
    paths.forEach(path -> BUNDLES.put(path, fhir(path)));
    codes =
        new PublishedCodes(
            LiveService.CONTRACT.catalogue("fhir-codes"), resources("/v1/fhir/CodeSystem"));
  }

  private static void addDeterminations(List<String> paths) {
    String decision =
        paths.stream().filter(path -> path.startsWith("/v1/decisions/")).findFirst().orElseThrow();
    for (String one : List.of("deferred", "everything", "not-cleared")) {
      String id =
          SERVICE
              .record(
                  Examples.changed(
                      "valid/determination/" + one, json -> json.put("reason", "Seen today.")))
              .post(decision + "/determinations")
              .path("determinationId");
      paths.add("/v1/determinations/" + id);
    }
  }

  /** A swollen knee and a new injury: cautions that are urgent. */
  private static String alarming() {
    ObjectNode json =
        (ObjectNode) JsonMapper.shared().readTree(battery("valid/battery/strength-and-hops"));
    ObjectNode results = (ObjectNode) json.path("results");
    results
        .putArray("effusion")
        .addObject()
        .put("measure", "knee-effusion-grade")
        .put("side", "left")
        .put("method", "stroke-test")
        .put("grade", "3+");
    results.putArray("clinicianFact").addObject().put("measure", "new-injury").put("value", true);
    return json.toString();
  }

  private static String battery(String path) {
    return Examples.changed(
        path,
        json -> {
          json.remove("replaces");
          json.remove("recordId");
        });
  }

  /** A case that the document fits: the same operated side, and a subject of its own. */
  private static void addCase(String caseId, String document) {
    JsonNode side = JsonMapper.shared().readTree(document).path("operatedSide");
    String body =
        Examples.changed(
            "valid/case/minimal",
            json -> json.put("subject", "S-" + caseId).set("operatedSide", side));
    SERVICE.json(body).put("/v1/cases/" + caseId).then().statusCode(201);
  }

  private static String recorded(String caseId, String list, String body, String id) {
    var answer = SERVICE.record(body).post("/v1/cases/" + caseId + "/" + list);
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(201);
    return answer.path(id);
  }

  private static String decided(String caseId, JsonNode set) {
    String body =
        JsonMapper.shared()
            .createObjectNode()
            .put("schemaVersion", "1.0")
            .set(
                "criteriaSet",
                JsonMapper.shared()
                    .createObjectNode()
                    .put("id", set.path("id").asString())
                    .put("version", set.path("version").asString()))
            .toString();
    return recorded(caseId, "decisions", body, "decisionId");
  }

  private static String name(JsonNode set) {
    return set.path("id").asString() + "/" + set.path("version").asString();
  }

  private static JsonNode fhir(String path) {
    var answer = SERVICE.http().accept("application/fhir+json").get(path);
    assertThat(answer.statusCode()).as(path + " " + answer.asString()).isEqualTo(200);
    return JsonMapper.shared().readTree(answer.asByteArray());
  }

  private static List<JsonNode> resources(String path) {
    return BUNDLES
        .get(path)
        .path("entry")
        .valueStream()
        .map(entry -> entry.path("resource"))
        .toList();
  }

  private static Stream<JsonNode> allResources() {
    return BUNDLES.keySet().stream().flatMap(path -> resources(path).stream());
  }

  /** Validating takes its time, so of resources that differ in digits alone one is looked at. */
  @Test
  void resource_ofEveryForm_isValid() {
    assertThat(BUNDLES).hasSizeGreaterThan(50);
    Map<String, JsonNode> forms = new LinkedHashMap<>();
    allResources().forEach(one -> forms.putIfAbsent(form(one), one));
    assertThat(forms).hasSizeGreaterThan(150);
    forms
        .values()
        .forEach(
            one ->
                assertThat(OfficialDefinitions.errors(one.toString()))
                    .as(one.path("resourceType").asString() + "/" + one.path("id").asString())
                    .isEmpty());
  }

  /** A resource with all its digits alike. */
  static String form(JsonNode resource) {
    return resource.toString().replaceAll("[0-9a-f]{8}-[-0-9a-f]{27}|[0-9.]+", "0");
  }

  /** References inside a Bundle must resolve, which a resource alone does not show. */
  @Test
  void bundle_ofEachKind_isValid() {
    Map<String, String> kinds = new LinkedHashMap<>();
    BUNDLES.keySet().forEach(path -> kinds.put(path.split("/", -1)[2], path));
    assertThat(kinds.keySet())
        .contains("batteries", "decisions", "sessions", "plans", "determinations", "cases");
    kinds.forEach(
        (kind, path) ->
            assertThat(OfficialDefinitions.errors(BUNDLES.get(path).toString()))
                .as(path)
                .isEmpty());
  }

  @Test
  void resources_ofEveryKind_areThere() {
    assertThat(allResources().map(one -> one.path("resourceType").asString()).distinct())
        .containsExactlyInAnyOrder(
            "CarePlan",
            "ClinicalImpression",
            "CodeSystem",
            "DetectedIssue",
            "Device",
            "DiagnosticReport",
            "Goal",
            "GuidanceResponse",
            "Library",
            "Observation",
            "PlanDefinition",
            "Procedure",
            "Provenance");
  }

  @Test
  void code_everywhere_isInThePublishedList() {
    BUNDLES.forEach((path, bundle) -> assertThat(codes.strangeIn(bundle)).as(path).isEmpty());
  }

  @Test
  void number_everywhere_isPlain() {
    for (String path : BUNDLES.keySet()) {
      String text = SERVICE.http().accept("application/fhir+json").get(path).asString();
      assertThat(text).as(path).doesNotContainPattern("[:\\[,]-?[0-9.]+[eE][-+]?[0-9]");
    }
  }

  @Test
  void resource_byTypeAndId_isTheOneOfTheBundle() {
    int asked = 0;
    for (String path : BUNDLES.keySet()) {
      boolean kept = !path.contains("/plan?");
      for (JsonNode one : kept ? sample(resources(path)) : List.<JsonNode>of()) {
        String address = one.path("resourceType").asString() + "/" + one.path("id").asString();
        assertThat(fhir("/v1/fhir/" + address)).as(address).isEqualTo(one);
        asked++;
      }
    }
    assertThat(asked).isGreaterThan(100);
  }

  /** One of each type, as asking for every Observation would take long. */
  private static List<JsonNode> sample(List<JsonNode> resources) {
    Map<String, JsonNode> byType = new LinkedHashMap<>();
    resources.forEach(one -> byType.put(one.path("resourceType").asString(), one));
    return List.copyOf(byType.values());
  }

  /** What a relative reference names is in the Bundle: nothing dangles. */
  @Test
  void reference_ofADecision_leadsIntoItsBundle() {
    for (String path : BUNDLES.keySet()) {
      List<String> addresses =
          resources(path).stream()
              .map(one -> one.path("resourceType").asString() + "/" + one.path("id").asString())
              .toList();
      List<String> references =
          BUNDLES.get(path).findValuesAsString("reference").stream()
              .filter(to -> !to.startsWith("#"))
              .toList();
      if (path.startsWith("/v1/decisions/") || path.startsWith("/v1/batteries/")) {
        assertThat(addresses).as(path).containsAll(references).doesNotHaveDuplicates();
      }
    }
  }

  @Test
  void decision_inFhir_saysWhatTheJsonSays() {
    for (String path : BUNDLES.keySet()) {
      if (path.startsWith("/v1/decisions/")) {
        JsonNode json = JsonMapper.shared().readTree(SERVICE.http().get(path).asByteArray());
        JsonNode guidance = resources(path).get(0);
        JsonNode parameters = guidance.at("/contained/0/parameter");
        assertThat(parameters.get(0).path("valueCode")).isEqualTo(json.path("outcome"));
        boolean open = json.path("outcome").asString().equals("undetermined");
        assertThat(guidance.path("status").asString())
            .isEqualTo(open ? "data-required" : "success");
        assertThat(parameters.findValuesAsString("valueCode"))
            .containsAll(findings(json.path("finding")).map(one -> text(one, "id")).toList());
        long expected = findings(json.path("finding")).count() + json.path("informative").size();
        assertThat(count(parameters, "result")).isEqualTo(expected);
      }
    }
  }

  private static long count(JsonNode parameters, String name) {
    return parameters.findValuesAsString("name").stream().filter(name::equals).count();
  }

  private static Stream<JsonNode> findings(JsonNode finding) {
    return Stream.concat(
        Stream.of(finding), finding.path("of").valueStream().flatMap(FhirTest::findings));
  }

  private static String text(JsonNode node, String name) {
    return node.path(name).asString();
  }

  @Test
  void library_holdsTheExactBytesOfItsSet() {
    for (JsonNode set : LiveService.CONTRACT.criteriaSets()) {
      String path = "/v1/criteria-sets/" + name(set);
      String data = resources(path).get(1).at("/content/0/data").asString();
      assertThat(java.util.Base64.getDecoder().decode(data))
          .isEqualTo(SERVICE.http().get(path).asByteArray());
    }
  }

  @Test
  void reading_inFhir_isNotedInTheTrail() {
    String path =
        BUNDLES.keySet().stream().filter(one -> one.startsWith("/v1/decisions/")).findFirst().get();
    String id = path.substring("/v1/decisions/".length());
    int before =
        SERVICE.http().get("/v1/accesses?decisionId=" + id).jsonPath().getList("items").size();
    fhir(path);
    fhir("/v1/fhir/GuidanceResponse/" + id);
    assertThat(
            SERVICE.http().get("/v1/accesses?decisionId=" + id).jsonPath().getList("items").size())
        .isEqualTo(before + 2);
  }
}

package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.openapi.Repository;
import evenside.api.problem.ProblemType;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Faulty documents get all their faults at once, with place, code and limit; nothing is stored. */
class BadInputTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String BATTERY = "valid/battery/strength-and-hops";

  private Map<String, Long> before;

  /** A fault as it must be reported; the limit is given where there is one. */
  record Expected(String pointer, String code, boolean limited) {
    static Expected at(String pointer, String code) {
      return new Expected(pointer, code, false);
    }

    static Expected limitedAt(String pointer, String code) {
      return new Expected(pointer, code, true);
    }
  }

  @BeforeAll
  static void recordCase() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
  }

  @BeforeEach
  void count() {
    before = SERVICE.rows();
  }

  @AfterEach
  void nothing_isStored() {
    assertThat(SERVICE.rows()).isEqualTo(before);
  }

  static Stream<Arguments> batteries() {
    return Stream.of(
        battery(
            "misspelt member",
            json -> json.put("perfomedAt", "x"),
            Expected.limitedAt("#/perfomedAt", "member.unknown")),
        battery(
            "wrong unit",
            json -> hop(json, 0).put("unit", "m"),
            Expected.limitedAt("#/results/hopDistance/0/unit", "unit.wrong")),
        battery(
            "missing offset",
            json -> json.put("performedAt", "2026-08-19T10:15:00"),
            Expected.limitedAt("#/performedAt", "date-time.invalid")),
        battery(
            "30 February",
            json -> json.put("performedAt", "2026-02-30T10:15:00Z"),
            Expected.limitedAt("#/performedAt", "date-time.invalid")),
        battery(
            "future date",
            json -> json.put("performedAt", "2026-12-01T12:05:01Z"),
            Expected.limitedAt("#/performedAt", "time.in-future")),
        battery(
            "sides that contradict the case",
            BadInputTest::turnOperatedSide,
            Expected.limitedAt("#/operatedSide", "side.contradicts-case")),
        battery(
            "a hop with no valid trial",
            BadInputTest::onlyInvalidTrials,
            Expected.limitedAt("#/results/hopDistance/0/trials", "trials.none-valid")),
        battery(
            "negative torque",
            json -> trial(strength(json, 0)).put("value", -1),
            Expected.limitedAt(
                "#/results/isokineticStrength/0/trials/0/value", "number.below-minimum")),
        battery(
            "unknown measure",
            json -> hop(json, 0).put("measure", "quadruple-hop"),
            Expected.limitedAt("#/results/hopDistance/0/measure", "value.not-allowed")),
        battery(
            "two results for the same measure and side",
            BadInputTest::repeatFirstHop,
            Expected.at("#/results/hopDistance/6", "result.duplicate")),
        battery(
            "null",
            json -> json.putNull("bodyMass"),
            Expected.limitedAt("#/bodyMass", "type.wrong")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("batteries")
  void battery_faulty_isRefusedWithPlaceCodeAndLimit(
      String name, String body, List<Expected> expected) {
    Response refused = SERVICE.record(body).post("/v1/cases/c/batteries");
    refused.then().statusCode(422).body("type", equalTo(ProblemType.INVALID_DOCUMENT.uri()));
    assertThat(faults(refused)).containsExactlyElementsOf(expected);
  }

  @Test
  void battery_withEveryFaultAtOnce_isToldAllOfThem() {
    String body =
        Examples.changed(
            BATTERY,
            json -> {
              json.put("perfomedAt", "x").put("performedAt", "2026-02-30T10:15:00Z");
              turnOperatedSide(json);
              repeatFirstHop(json);
              hop(json, 1).put("unit", "m");
              hop(json, 2).put("measure", "quadruple-hop");
              trial(strength(json, 0)).put("value", -1);
            });
    Response refused = SERVICE.record(body).post("/v1/cases/c/batteries");
    refused.then().statusCode(422).body("truncated", equalTo(false));
    assertThat(faults(refused))
        .extracting(Expected::code)
        .containsExactlyInAnyOrder(
            "member.unknown",
            "date-time.invalid",
            "side.contradicts-case",
            "result.duplicate",
            "unit.wrong",
            "value.not-allowed",
            "number.below-minimum");
    assertThat(faults(refused)).extracting(Expected::pointer).isSorted();
  }

  @Test
  void battery_withMoreFaultsThanAreShown_saysSo() {
    String body =
        Examples.changed(
            BATTERY,
            json -> {
              for (int i = 0; i < 150; i++) {
                json.put("surplus" + i, 1);
              }
            });
    Response refused = SERVICE.record(body).post("/v1/cases/c/batteries");
    refused.then().statusCode(422).body("truncated", equalTo(true));
    assertThat(faults(refused)).hasSize(100);
  }

  @Test
  void case_withFutureSurgery_isRefused() {
    String body =
        Examples.changed("valid/case/minimal", json -> json.put("surgeryDate", "2026-12-05"));
    Response refused = SERVICE.json(body).put("/v1/cases/future");
    refused.then().statusCode(422);
    assertThat(faults(refused))
        .containsExactly(Expected.limitedAt("#/surgeryDate", "date.in-future"));
  }

  @Test
  void criteriaSet_unknown_isRefused() {
    String request =
        """
        {"schemaVersion": "1.0", "criteriaSet": {"id": "nobody-2000", "version": "1"}}
        """;
    Response refused = SERVICE.record(request).post("/v1/cases/c/decisions");
    refused.then().statusCode(422);
    assertThat(faults(refused))
        .containsExactly(Expected.at("#/criteriaSet", "criteria-set.unknown"));
    String assessment =
        Examples.changed(
            "valid/assessment-request/two-sets-side-by-side",
            json -> ((ObjectNode) json.path("criteriaSets").path(1)).put("id", "nobody-2000"));
    Response assessed = SERVICE.json(assessment).post("/v1/assessments");
    assessed.then().statusCode(422);
    assertThat(faults(assessed))
        .containsExactly(Expected.at("#/criteriaSets/1", "criteria-set.unknown"));
  }

  @Test
  void schemaVersion_unsupported_isAKindOfItsOwn() {
    String body = Examples.changed("valid/case/minimal", json -> json.put("schemaVersion", "1.9"));
    Response refused = SERVICE.json(body).put("/v1/cases/version");
    refused
        .then()
        .statusCode(422)
        .body("type", equalTo(ProblemType.UNSUPPORTED_SCHEMA_VERSION.uri()));
    assertThat(faults(refused))
        .containsExactly(Expected.limitedAt("#/schemaVersion", "schema-version.unsupported"));
  }

  /** The published invalid examples, each with the faults that its neighbour file expects. */
  static Stream<Arguments> publishedExamples() throws IOException {
    Path folder = Repository.path("schemas/examples/invalid");
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(file -> file.toString().endsWith(".expected.json"))
          .sorted()
          .map(file -> folder.relativize(file).toString().replace(".expected.json", ""))
          .map(Arguments::of)
          .toList()
          .stream();
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("publishedExamples")
  void example_published_isFaultedAsItsNeighbourSays(String name) {
    String kind = name.substring(0, name.indexOf('/'));
    Response report = SERVICE.json(Examples.text("invalid/" + name)).post("/v1/checks/" + kind);
    report.then().statusCode(200).body("valid", equalTo(false));
    List<String> expected = new ArrayList<>();
    for (JsonNode fault :
        JsonMapper.shared().readTree(Examples.text("invalid/" + name + ".expected"))) {
      expected.add(fault.path("pointer").asString() + " " + fault.path("code").asString());
    }
    assertThat(faults(report)).map(f -> f.pointer() + " " + f.code()).containsAll(expected);
  }

  private static Arguments battery(String name, Consumer<ObjectNode> change, Expected... expected) {
    return Arguments.of(name, Examples.changed(BATTERY, change), List.of(expected));
  }

  private static List<Expected> faults(Response answer) {
    List<Expected> faults = new ArrayList<>();
    for (JsonNode fault : JsonMapper.shared().readTree(answer.asByteArray()).path("faults")) {
      assertThat(fault.path("detail").asString()).isNotBlank();
      faults.add(
          new Expected(
              fault.path("pointer").asString(), fault.path("code").asString(), fault.has("limit")));
    }
    return faults;
  }

  private static ObjectNode hop(ObjectNode json, int index) {
    return (ObjectNode) json.path("results").path("hopDistance").path(index);
  }

  private static ObjectNode strength(ObjectNode json, int index) {
    return (ObjectNode) json.path("results").path("isokineticStrength").path(index);
  }

  private static ObjectNode trial(ObjectNode result) {
    return (ObjectNode) result.path("trials").path(0);
  }

  private static void turnOperatedSide(ObjectNode json) {
    boolean left = json.path("operatedSide").asString().equals("left");
    json.put("operatedSide", left ? "right" : "left");
  }

  private static void onlyInvalidTrials(ObjectNode json) {
    ArrayNode trials = hop(json, 0).putArray("trials");
    trials.addObject().put("invalidReason", "loss-of-balance");
    trials.addObject().put("value", 120).put("invalidReason", "extra-hop");
  }

  private static void repeatFirstHop(ObjectNode json) {
    ((ArrayNode) json.path("results").path("hopDistance")).add(hop(json, 0).deepCopy());
  }

  @Test
  void kindThatIsNotThere_leadsToTheKinds() {
    SERVICE
        .json("{}")
        .post("/v1/checks/batteries")
        .then()
        .statusCode(404)
        .body("detail", containsString("/v1/schemas lists them"));
  }
}

package evenside.api.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.LiveService;
import io.restassured.response.Response;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Observations as a battery: what was sent out comes back the same, and what cannot be kept is
 * refused at its place.
 */
class FhirImportTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @BeforeAll
  static void recordCase() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
  }

  private static JsonNode tree(Response answer) {
    return JsonMapper.shared().readTree(answer.asByteArray());
  }

  private static Response send(String body) {
    return SERVICE
        .record(body)
        .contentType("application/fhir+json")
        .post("/v1/cases/c/fhir-observations");
  }

  /** What a battery holds, exported and imported again, is what it held. */
  @ParameterizedTest
  @ValueSource(
      strings = {"strength-and-hops", "early-signs", "every-measure", "not-everything-done"})
  void observations_exported_areReadBackTheSame(String example) {
    String sent =
        Examples.changed(
            "valid/battery/" + example,
            json -> {
              json.remove("recordId");
              json.put("operatedSide", "left");
            });
    Response first = SERVICE.record(sent).post("/v1/cases/c/batteries");
    assertThat(first.statusCode()).as(first.asString()).isEqualTo(201);
    JsonNode bundle =
        tree(
            SERVICE
                .http()
                .accept("application/fhir+json")
                .get("/v1/batteries/" + tree(first).path("batteryId").asString()));
    Response second = send(recorded(bundle).toString());
    assertThat(second.statusCode()).as(second.asString()).isEqualTo(201);
    JsonNode before = tree(first).path("battery");
    JsonNode after = tree(second).path("battery");
    assertThat(after.path("results")).isEqualTo(withoutAnswers(before).path("results"));
    for (String member : List.of("performedAt", "operatedSide", "bodyMass", "limbLength")) {
      assertThat(after.path(member)).as(member).isEqualTo(before.path(member));
    }
    assertThat(tree(second).path("symmetry")).isEqualTo(tree(first).path("symmetry"));
  }

  /** The Observations that were recorded, without those that the service worked out. */
  private static ObjectNode recorded(JsonNode bundle) {
    ObjectNode copy = (ObjectNode) bundle.deepCopy();
    ArrayNode entries = copy.putArray("entry");
    for (JsonNode entry : bundle.path("entry")) {
      String id = entry.at("/resource/id").asString();
      boolean observed = entry.at("/resource/resourceType").asString().equals("Observation");
      if (observed && !id.contains("-symmetry-") && !id.contains("-worked-out-")) {
        ObjectNode resource = (ObjectNode) entry.path("resource").deepCopy();
        resource.remove("derivedFrom");
        entries.addObject().set("resource", resource);
      }
    }
    return copy;
  }

  /** Answers to single items are not exported. */
  private static JsonNode withoutAnswers(JsonNode battery) {
    ObjectNode copy = (ObjectNode) battery.deepCopy();
    copy.at("/results/questionnaire").forEach(form -> ((ObjectNode) form).remove("responses"));
    return copy;
  }

  @Test
  void koos_byLoincCodesAlone_isRead() {
    Response answer = send(Examples.fhir("koos-loinc"));
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(201);
    JsonNode form = tree(answer).at("/battery/results/questionnaire/0");
    assertThat(form.path("instrument").asString()).isEqualTo("koos");
    assertThat(form.path("scores").findValuesAsString("measure"))
        .containsExactly(
            "koos-pain",
            "koos-symptoms",
            "koos-daily-living",
            "koos-sport-recreation",
            "koos-quality-of-life");
  }

  @Test
  void payloads_ofTheseTests_areValidFhir() {
    for (String name : List.of("one-hop", "koos-loinc")) {
      assertThat(OfficialDefinitions.errors(Examples.fhir(name))).as(name).isEmpty();
    }
  }

  @Test
  void sameBundle_again_isTheSameRecord() {
    String body = Examples.fhirObservations("again-1", 120);
    assertThat(send(body).statusCode()).isEqualTo(201);
    assertThat(send(body).statusCode()).isEqualTo(200);
    assertThat(send(Examples.fhirObservations("again-1", 121)).statusCode()).isEqualTo(409);
  }

  static Stream<Arguments> spoilt() {
    String at = "#/entry/0/resource";
    return Stream.of(
        spoilt("fhir.unit-wrong", at + "/valueQuantity/code", hop -> unit(hop, "m")),
        spoilt(
            "fhir.unit-wrong",
            at + "/valueQuantity/code",
            hop -> quantity(hop).put("system", "https://clinic.example/units")),
        spoilt("fhir.side-unknown", at + "/bodySite", hop -> hop.remove("bodySite")),
        spoilt("fhir.side-unknown", at + "/bodySite", FhirImportTest::kneeWithoutSide),
        spoilt("fhir.code-unknown", at + "/code", hop -> coding(hop).put("code", "hop-of-faith")),
        spoilt("fhir.codes-disagree", at + "/code", hop -> addCoding(hop, "triple-hop-distance")),
        spoilt(
            "fhir.worked-out-here",
            at + "/code",
            hop -> coding(hop).put("code", "symmetry-single-hop-distance")),
        spoilt(
            "fhir.other-subject",
            at + "/subject",
            hop -> hop.putObject("subject").put("reference", "Patient/S-0418")),
        spoilt("fhir.other-subject", at + "/subject", hop -> hop.remove("subject")),
        spoilt("fhir.status-not-taken", at + "/status", hop -> hop.put("status", "preliminary")),
        spoilt(
            "fhir.time-unusable",
            at + "/effectiveDateTime",
            hop -> hop.put("effectiveDateTime", "2026-08-21")),
        spoilt(
            "fhir.member-not-taken",
            at + "/note",
            hop -> hop.putArray("note").addObject().put("text", "knee felt odd")),
        spoilt(
            "fhir.member-not-taken",
            at + "/modifierExtension",
            hop -> hop.putArray("modifierExtension").addObject().put("url", "https://x.example")),
        spoilt(
            "fhir.value-unusable",
            at + "/valueQuantity",
            hop -> quantity(hop).put("comparator", ">")),
        spoilt(
            "fhir.value-unusable", at + "/valueQuantity", hop -> quantity(hop).put("value", "126")),
        spoilt("fhir.value-unusable", at + "/value", hop -> hop.remove("valueQuantity")),
        spoilt(
            "fhir.reason-missing",
            at + "/dataAbsentReason",
            hop -> {
              hop.remove("valueQuantity");
              hop.putObject("dataAbsentReason").put("text", "no time");
            }),
        spoilt(
            "fhir.code-unknown",
            at + "/component/0/code",
            hop -> hop.putArray("component").addObject().putObject("code").put("text", "wind")),
        spoilt(
            "fhir.resource-not-taken",
            at + "/resourceType",
            hop -> hop.put("resourceType", "Condition")),
        // Found by the rules of a battery, and pointed out in the payload all the same.
        spoilt(
            "number.above-maximum",
            at + "/valueQuantity",
            hop -> quantity(hop).put("value", 9000)));
  }

  private static Arguments spoilt(String code, String pointer, Consumer<ObjectNode> change) {
    return Arguments.of(code, pointer, change);
  }

  private static ObjectNode quantity(ObjectNode hop) {
    return (ObjectNode) hop.path("valueQuantity");
  }

  private static void unit(ObjectNode hop, String unit) {
    quantity(hop).put("unit", unit).put("code", unit);
  }

  private static ObjectNode coding(ObjectNode hop) {
    return (ObjectNode) hop.at("/code/coding/0");
  }

  private static void addCoding(ObjectNode hop, String code) {
    ObjectNode other = coding(hop).deepCopy().put("code", code);
    ((ArrayNode) hop.at("/code/coding")).add(other);
  }

  /** SNOMED CT has a code for the knee without a side; it is not enough. */
  private static void kneeWithoutSide(ObjectNode hop) {
    ((ObjectNode) hop.at("/bodySite/coding/0"))
        .put("system", "http://snomed.info/sct")
        .put("code", "72696002");
  }

  @ParameterizedTest(name = "{0} at {1}")
  @MethodSource("spoilt")
  void observation_spoilt_isRefusedAtItsPlace(
      String code, String pointer, Consumer<ObjectNode> change) {
    String body = Examples.fhirObservations("spoilt", 126);
    ObjectNode bundle = (ObjectNode) JsonMapper.shared().readTree(body);
    bundle.remove("identifier");
    change.accept((ObjectNode) bundle.at("/entry/0/resource"));
    var before = SERVICE.rows();
    Response answer = send(bundle.toString());
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(422);
    assertThat(SERVICE.rows()).isEqualTo(before);
    JsonNode fault = tree(answer).at("/faults/0");
    assertThat(fault.path("code").asString()).isEqualTo(code);
    assertThat(fault.path("pointer").asString()).isEqualTo(pointer);
    assertThat(tree(answer).path("faults")).hasSize(1);
  }

  @Test
  void observations_withSevenFaults_areAllNamed() {
    ObjectNode bundle =
        (ObjectNode) JsonMapper.shared().readTree(Examples.fhirObservations("seven", 126));
    ArrayNode entries = (ArrayNode) bundle.path("entry");
    JsonNode good = entries.get(0).deepCopy();
    ObjectNode first = (ObjectNode) entries.get(0).path("resource");
    unit(first, "in");
    first.remove("bodySite");
    first.put("status", "entered-in-error");
    first.putArray("note").addObject().put("text", "x");
    ObjectNode second = entries.addObject();
    second.set("resource", good.path("resource"));
    ObjectNode other = (ObjectNode) second.path("resource");
    other.put("effectiveDateTime", "2026-08-22T10:15:00+02:00");
    other.remove("subject");
    coding(other).put("code", "nope");
    assertThat(tree(send(bundle.toString())).path("faults")).hasSize(7);
  }

  @Test
  void role_againstTheCase_isRefused() {
    ObjectNode bundle =
        (ObjectNode) JsonMapper.shared().readTree(Examples.fhirObservations("role", 126));
    ObjectNode component =
        ((ObjectNode) bundle.at("/entry/0/resource")).putArray("component").addObject();
    String terms = "https://evenside.example/fhir/CodeSystem/evenside-terms";
    component
        .putObject("code")
        .putArray("coding")
        .addObject()
        .put("system", terms)
        .put("code", "limb-role");
    component
        .putObject("valueCodeableConcept")
        .putArray("coding")
        .addObject()
        .put("system", terms)
        .put("code", "limb-role-other");
    JsonNode faults = tree(send(bundle.toString())).path("faults");
    assertThat(faults.findValuesAsString("code")).containsExactly("fhir.role-contradicts-case");
  }
}

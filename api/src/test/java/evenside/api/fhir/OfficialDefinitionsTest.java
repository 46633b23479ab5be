package evenside.api.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.Contract;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Negative controls: what the official validator must notice, or the tests that use it show
 * nothing. What it does not notice (an invented LOINC code, a wrong display) the published list
 * must.
 */
class OfficialDefinitionsTest {
  private static final Codes CODES = new Codes(Contract.published(), true);

  private static ObjectNode observation() {
    ObjectNode json = Fhir.resource("Observation", "pain-1").put("status", "final");
    json.putArray("category").add(CODES.external("category-survey"));
    json.set("code", CODES.measure("knee-pain"));
    json.set("subject", Visit.person("S-1"));
    json.put("effectiveDateTime", "2026-03-14T19:00:00+01:00");
    json.set("valueQuantity", Fhir.quantity(JsonMapper.shared().readTree("2"), "{score}"));
    json.set("bodySite", CODES.knee("left"));
    return json;
  }

  @Test
  void observation_unspoilt_isValid() {
    assertThat(OfficialDefinitions.errors(observation())).isEmpty();
  }

  static Stream<Arguments> spoilt() {
    return Stream.of(
        spoilt("no status", json -> json.remove("status")),
        spoilt("a unit that is no UCUM", json -> unit(json, "Nm")),
        spoilt("another unit that is no UCUM", json -> unit(json, "°/s")),
        spoilt("an unknown local code", json -> coding(json).put("code", "elbow-pain")),
        spoilt("no offset", json -> json.put("effectiveDateTime", "2026-03-14T19:00:00")),
        spoilt("an unknown member", json -> json.put("colour", "red")),
        spoilt("a number as text", json -> quantity(json).put("value", "2")),
        spoilt("a wrong status", json -> json.put("status", "Final")),
        spoilt("an empty list", json -> json.putArray("note")),
        spoilt("null", json -> json.putNull("issued")),
        spoilt("two values", json -> json.put("valueInteger", 2)),
        spoilt(
            "a dangling contained reference",
            json -> json.putArray("derivedFrom").addObject().put("reference", "#nothing")));
  }

  private static Arguments spoilt(String name, Consumer<ObjectNode> change) {
    return Arguments.of(name, change);
  }

  private static ObjectNode quantity(ObjectNode json) {
    return (ObjectNode) json.path("valueQuantity");
  }

  private static void unit(ObjectNode json, String unit) {
    quantity(json).put("unit", unit).put("code", unit);
  }

  private static ObjectNode coding(ObjectNode json) {
    return (ObjectNode) json.at("/code/coding/0");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("spoilt")
  void observation_spoilt_isNoticed(String name, Consumer<ObjectNode> change) {
    ObjectNode json = observation();
    change.accept(json);
    assertThat(OfficialDefinitions.errors(json.toString())).isNotEmpty();
  }

  @Test
  void guidance_withoutModule_isNoticed() {
    ObjectNode json = Fhir.resource("GuidanceResponse", "g").put("status", "success");
    assertThat(OfficialDefinitions.errors(json)).isNotEmpty();
  }

  @Test
  void code_inventedOrMisnamed_isNoticedByTheList() {
    PublishedCodes list =
        new PublishedCodes(
            Contract.published().catalogue("fhir-codes"), List.copyOf(CODES.systems()));
    assertThat(list.strangeIn(observation())).isEmpty();
    ObjectNode invented = observation();
    ((ObjectNode) invented.at("/code/coding/1")).put("code", "99999-9");
    assertThat(list.strangeIn(invented)).hasSize(1);
    ObjectNode misnamed = observation();
    ((ObjectNode) misnamed.at("/code/coding/1")).put("display", "Pain score [HOOS]");
    assertThat(list.strangeIn(misnamed)).hasSize(1);
    ObjectNode unit = observation();
    unit(unit, "bpm");
    assertThat(list.strangeIn(unit)).hasSize(1);
  }

  /** LOINC's check digit, Luhn's over the digits before it. Source: the LOINC Users' Guide. */
  @Test
  void loincCode_published_hasItsCheckDigit() {
    for (JsonNode one : Contract.published().catalogue("fhir-codes").path("mappings")) {
      if (one.path("licence").asString().equals("loinc")) {
        String[] parts = one.path("code").asString().split("-", -1);
        assertThat(luhn(parts[0])).as(one.toString()).isEqualTo(Integer.parseInt(parts[1]));
      }
    }
  }

  private static int luhn(String digits) {
    int sum = 0;
    for (int i = 0; i < digits.length(); i++) {
      int digit = digits.charAt(digits.length() - 1 - i) - '0';
      int doubled = i % 2 == 0 ? 2 * digit : digit;
      sum += doubled > 9 ? doubled - 9 : doubled;
    }
    return (10 - sum % 10) % 10;
  }

  @Test
  void codeSystem_ofMeasures_namesWhatTheCatalogueNames() {
    JsonNode system = CODES.systems().get(0);
    assertThat(system.path("id").asString()).isEqualTo("evenside-measures");
    for (JsonNode measure : Contract.published().catalogue("measures").path("measures")) {
      ObjectNode concept = Fhir.object().put("code", measure.path("code").asString());
      assertThat(system.path("concept").valueStream().toList())
          .contains(concept.put("display", measure.path("title").asString()));
    }
  }

  @Test
  void snomedCode_isWrittenOnlyWhereAskedFor() {
    Codes without = new Codes(Contract.published(), false);
    assertThat(without.knee("left").toString()).doesNotContain("snomed");
    assertThat(CODES.knee("left").toString()).contains("snomed");
  }
}

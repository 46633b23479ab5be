package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** One battery holds every measure of the catalogue, and every number follows from it. */
class EveryMeasureTest {
  private static final JsonNode ASSESSED =
      Documents.assess(Documents.everyMeasure()).path("symmetry").path(0);

  @Test
  void battery_withEveryMeasure_hasNoFault() {
    CheckReport report = Documents.DESK.check("battery", Documents.everyMeasure());
    assertThat(report.faults()).isEmpty();
    assertThat(report.valid()).isTrue();
  }

  @Test
  void battery_holdsEveryMeasureThatIsSent() {
    Set<String> sent = new TreeSet<>();
    for (JsonNode family : Documents.everyMeasure().path("results")) {
      for (JsonNode result : family) {
        sent.add(result.path("measure").asString());
        result.path("scores").forEach(score -> sent.add(score.path("measure").asString()));
      }
    }
    sent.remove(""); // a questionnaire names its measures score by score
    assertThat(sent).containsExactlyInAnyOrderElementsOf(codes(false));
  }

  @Test
  void battery_givesEveryMeasureThatIsWorkedOut() {
    Set<String> found = new TreeSet<>();
    ASSESSED.path("workedOut").forEach(one -> found.add(one.path("measure").asString()));
    assertThat(found).containsAll(codes(true));
  }

  @Test
  void everySidedPair_isCompared() {
    for (JsonNode comparison : ASSESSED.path("symmetry")) {
      assertThat(comparison.has("symmetry") || comparison.has("difference"))
          .as(comparison.toString())
          .isTrue();
    }
  }

  static Stream<JsonNode> examples() {
    return measures().filter(measure -> measure.has("example"));
  }

  /** The sheet of a measure shows how its result is sent; sent alone it is accepted. */
  @ParameterizedTest
  @MethodSource("examples")
  void example_ofAMeasure_isAccepted(JsonNode measure) {
    ObjectNode battery = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    battery.put("performedAt", "2026-09-22T14:00:00+02:00").put("operatedSide", "left");
    battery
        .putObject("results")
        .putArray(measure.path("family").asString())
        .add(measure.path("example"));
    assertThat(Documents.DESK.check("battery", battery).faults()).isEmpty();
  }

  @Test
  void sheet_carriesExampleErrorsReferencesAndTheirSources() {
    JsonNode sheet = Documents.tree(Documents.DESK.measure("single-hop-distance"));
    assertThat(sheet.at("/example/trials").size()).isEqualTo(3);
    assertThat(sheet.path("invalidReasons").valueStream().map(JsonNode::asString))
        .contains("landing-not-held", "extra-hop");
    assertThat(sheet.path("measurementErrors").size()).isEqualTo(2);
    assertThat(sheet.path("referenceValues").size()).isGreaterThan(5);
    List<String> cited =
        sheet.path("citations").valueStream().map(one -> one.path("key").asString()).toList();
    assertThat(cited).contains("hop-limb-length-2018", "reid-2007");
  }

  /** Torque by definition: 412 N at 34 cm is 140.08 N.m, per 63.2 kg 2.2165 N.m/kg. */
  @Test
  void force_withItsLeverArm_givesTorquePerMass() {
    JsonNode torque =
        workedOut("knee-extension-peak-torque", "operated", "/results/isometricForce/0");
    assertThat(torque.at("/value/value").asDouble()).isEqualTo(140.08);
    assertThat(torque.at("/protocol/mode").asString()).isEqualTo("isometric");
    assertThat(torque.path("protocol").has("leverArm")).isFalse();
    JsonNode perMass =
        workedOut("knee-extension-peak-torque", "operated-per-mass", "/results/isometricForce/0");
    assertThat(perMass.at("/value/value").asDouble()).isCloseTo(140.08 / 63.2, within(1e-9));
  }

  @Test
  void force_withoutItsLeverArm_isNoTorque() {
    ObjectNode battery = Documents.everyMeasure();
    battery
        .at("/results/isometricForce")
        .forEach(result -> ((ObjectNode) result).remove("leverArm"));
    JsonNode assessed = Documents.assess(battery).path("symmetry").path(0);
    assertThat(assessed.path("workedOut").valueStream())
        .noneMatch(one -> one.at("/from/0").asString().startsWith("/results/isometricForce"));
    assertThat(assessed.path("symmetry").valueStream())
        .anyMatch(Documents.has("measure", "knee-extension-peak-force"));
  }

  /** By hand from the example: 161.1, 92, 112 and 108 over 98 N.m. */
  @Test
  void hamstringsToQuadriceps_inThreeDefinitions() {
    assertThat(ratio("hamstring-quadriceps-ratio")).isCloseTo(100 * 92 / 161.1, within(1e-8));
    assertThat(ratio("functional-hamstring-quadriceps-ratio"))
        .isCloseTo(100 * 112 / 161.1, within(1e-8));
    assertThat(ratio("mixed-hamstring-quadriceps-ratio")).isCloseTo(100 * 108 / 98.0, within(1e-8));
  }

  /** Several versions exist (measured with 10, 13 and 17 items); a bound is for one of them. */
  @Test
  void landingScore_ofAnotherVersion_isAnotherMeasure() {
    ObjectNode battery = Documents.everyMeasure();
    ((ObjectNode) battery.at("/results/landingScore/0")).put("maximum", 15);
    assertThat(Documents.DESK.check("battery", battery).faults())
        .extracting(fault -> fault.pointer() + " " + fault.code())
        .containsExactly("#/results/landingScore/0/maximum measure.other-version");
  }

  @Test
  void landings_ofDifferentMethods_areNotCompared() {
    ObjectNode battery = Documents.everyMeasure();
    ((ObjectNode) battery.at("/results/stabilisationTime/1")).put("method", "sequential-5-s");
    JsonNode assessed = Documents.assess(battery).path("symmetry").path(0);
    JsonNode alone =
        Documents.first(
            assessed.path("symmetry"), Documents.has("measure", "time-to-stabilisation"));
    assertThat(alone.has("symmetry")).isFalse();
    assertThat(alone.at("/reason/code").asString()).isEqualTo("tested-differently");
    assertThat(alone.at("/reason/text").asString()).contains("method");
  }

  /** Repetitions 161.1, 154.8, 158: mean 157.9667, sample SD 3.1501, by numpy (ddof 1). */
  @Test
  void repetitions_showTheirConsistency() {
    JsonNode first = ASSESSED.at("/repetitions/0");
    assertThat(first.at("/coefficientOfVariation/value").asDouble()).isCloseTo(1.99, within(0.01));
    assertThat(first.path("consistency").asString()).isEqualTo("high");
  }

  /** The order of members means nothing in JSON. */
  @Test
  void families_inAnotherOrder_giveTheSameBytes() {
    ObjectNode battery = Documents.everyMeasure();
    ObjectNode results = (ObjectNode) battery.path("results");
    List<String> names = new java.util.ArrayList<>(results.propertyNames());
    java.util.Collections.reverse(names);
    ObjectNode turned = JsonNodeFactory.instance.objectNode();
    names.forEach(name -> turned.set(name, results.get(name)));
    battery.set("results", turned);
    assertThat(Documents.assess(battery).path("symmetry").path(0)).isEqualTo(ASSESSED);
  }

  private static double ratio(String code) {
    return workedOut(code, "operated", "/results/isokineticStrength/")
        .at("/value/value")
        .asDouble();
  }

  private static JsonNode workedOut(String measure, String aspect, String from) {
    return Documents.first(
        ASSESSED.path("workedOut"),
        Documents.has("measure", measure)
            .and(Documents.has("aspect", aspect))
            .and(one -> one.at("/from/0").asString().startsWith(from)));
  }

  private static Set<String> codes(boolean derived) {
    Set<String> codes = new TreeSet<>();
    measures()
        .filter(measure -> measure.path("family").asString().equals("derived") == derived)
        .forEach(measure -> codes.add(measure.path("code").asString()));
    codes.remove("time-since-surgery");
    return codes;
  }

  private static Stream<JsonNode> measures() {
    return Documents.CONTRACT.catalogue("measures").path("measures").valueStream();
  }
}

package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.intake.CatalogueReader;
import evenside.knee.Sex;
import evenside.measure.Aspect;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Protocol;
import evenside.measure.ReferenceValue;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Published norms stand beside a finding with their population, and decide nothing. */
class ContextTest {
  private static final MeasureCatalogue CATALOGUE =
      new CatalogueReader(Documents.CONTRACT).measures();

  /** PLoS One 2012;7:e50979 quotes .78 at 300 deg/s for young male professionals. */
  @Test
  void ratioOfAMan_standsBesideTheQuotedNormal() {
    JsonNode context = ratioAt300("male").path("context");
    assertThat(context.size()).isEqualTo(1);
    assertThat(context.at("/0/id").asString()).isEqualTo("hq-normal-300");
    assertThat(context.at("/0/value").asDouble()).isEqualTo(78);
    assertThat(context.at("/0/population").asString()).contains("male professionals");
    assertThat(context.at("/0/source").asString()).contains("e50979");
  }

  @Test
  void ratioOfAWoman_hasNoFigureOfMenBesideIt() {
    assertThat(ratioAt300("female").has("context")).isFalse();
  }

  /** Isometric strength at 80°: 2.20 ± 0.51 N.m/kg in women, 2.74 ± 0.58 in men (PMID 38288034). */
  @Test
  void strength_isMatchedBySex() {
    assertThat(ids(80, Sex.FEMALE))
        .contains("iso80-female-extension")
        .noneMatch(id -> id.contains("-male"));
    assertThat(ids(80, Sex.MALE))
        .contains("iso80-male-extension")
        .noneMatch(id -> id.contains("female"));
    assertThat(ids(80, Sex.NOT_STATED)).isEmpty();
    assertThat(ids(60, Sex.FEMALE)).doesNotContain("iso80-female-extension");
  }

  /** The line of 3.0 N.m/kg (Gokeler 2017) and the errors are no description of people. */
  @Test
  void linesAndErrors_areNoContext() {
    Protocol concentric = new Protocol(Map.of("mode", "isokinetic-concentric", "speed", 60.0));
    String extension = "knee-extension-peak-torque";
    assertThat(CATALOGUE.context(extension, Aspect.OPERATED_PER_MASS, concentric, Sex.MALE))
        .isEmpty();
    assertThat(CATALOGUE.context(extension, Aspect.OPERATED, concentric, Sex.MALE)).isEmpty();
  }

  private static List<String> ids(double angle, Sex sex) {
    Protocol protocol = new Protocol(Map.of("mode", "isometric", "angle", angle));
    return CATALOGUE
        .context("knee-extension-peak-torque", Aspect.OPERATED_PER_MASS, protocol, sex)
        .stream()
        .map(ReferenceValue::id)
        .toList();
  }

  private static JsonNode ratioAt300(String sex) {
    ObjectNode battery = Documents.everyMeasure();
    for (JsonNode result : battery.at("/results/isokineticStrength")) {
      if (result.at("/speed/value").asInt() == 60) {
        ((ObjectNode) result.path("speed")).put("value", 300);
      }
    }
    ObjectNode request = Documents.request(battery, "gokeler-welling", "2018.1");
    ((ObjectNode) request.path("case")).put("sex", sex);
    JsonNode decision = Documents.tree(Documents.DESK.assess(request)).at("/decisions/0");
    return Documents.first(
        decision.path("informative"), Documents.has("id", "hq-ratio-300-" + sex));
  }
}

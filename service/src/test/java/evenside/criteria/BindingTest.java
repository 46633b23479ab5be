package evenside.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.intake.CatalogueReader;
import evenside.intake.CriteriaSetReader;
import evenside.measure.MeasureCatalogue;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class BindingTest {
  private static final CatalogueReader READER = new CatalogueReader(Clinic.CONTRACT);
  private static final MeasureCatalogue CATALOGUE = READER.measures();

  static Stream<JsonNode> published() {
    return Clinic.CONTRACT.criteriaSets().stream();
  }

  /** The published sets themselves; no numbers of its own. */
  @ParameterizedTest
  @MethodSource("published")
  void publishedSet_fitsTheCatalogue(JsonNode set) {
    assertThat(misfits(set)).isEmpty();
  }

  private static Arguments bad(String misfit, Consumer<ObjectNode> change) {
    return Arguments.of(misfit, change);
  }

  /** Criterion 1 of the set is quadriceps symmetry, 7 and 8 are time and effusion. */
  static Stream<Arguments> misfits() {
    return Stream.of(
        bad("/criteria/of/0/measure MEASURE_UNKNOWN", c -> c.put("measure", "long-jump")),
        bad("/criteria/of/0/unit UNIT_NOT_OF_MEASURE", c -> c.put("unit", "N.m")),
        bad("/criteria/of/0/unit UNIT_NOT_OF_MEASURE", c -> c.put("aspect", "operated")),
        bad("/criteria/of/0/aspect ASPECT_NOT_OFFERED", c -> c.put("aspect", "value")),
        bad("/criteria/of/0/aspect ASPECT_NOT_OFFERED", c -> c.put("aspect", "difference")),
        bad(
            "/criteria/of/0/aspect ASPECT_NOT_OFFERED",
            c -> c.put("aspect", "operated-per-height")),
        bad("/criteria/of/0/bound BOUND_IMPLAUSIBLE", c -> c.put("bound", 900)),
        bad("/criteria/of/0/bound BOUND_IMPLAUSIBLE", c -> c.put("bound", -1)),
        bad("/criteria/of/0/bound BOUND_IMPLAUSIBLE", c -> torque(c, 501)),
        bad("/criteria/of/0/bound BOUND_IMPLAUSIBLE", c -> perMass(c, 90)),
        bad(
            "/criteria/of/0/bound BOUND_IMPLAUSIBLE",
            c -> perHeight(c, "single-hop-distance", 301)));
  }

  /** Invented misfits, one at a time, to exercise the rule; bounds beyond the plausible ranges. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("misfits")
  void misfit_isNamedWithItsPlace(String misfit, Consumer<ObjectNode> change) {
    ObjectNode set = set();
    change.accept((ObjectNode) set.at("/criteria/of/0"));
    assertThat(misfits(set)).containsExactly(misfit);
  }

  @Test
  void boundsOfTheTrade_fit() {
    ObjectNode set = set();
    ObjectNode criterion = (ObjectNode) set.at("/criteria/of/0");
    perMass(criterion, 3.5);
    assertThat(misfits(set)).isEmpty();
    perHeight(criterion, "triple-hop-distance", 350);
    assertThat(misfits(set)).isEmpty();
    torque(criterion, 200);
    assertThat(misfits(set)).isEmpty();
  }

  @Test
  void measureOfAnotherKind_isNamed() {
    ObjectNode set = set();
    ((ObjectNode) set.at("/criteria/of/8")).put("measure", "knee-pain");
    assertThat(misfits(set)).containsExactly("/criteria/of/8/measure MEASURE_WRONG_FAMILY");
  }

  @Test
  void sameIdTwice_isNamed() {
    ObjectNode set = set();
    ((ObjectNode) set.at("/criteria/of/1")).put("id", "knee-extension-symmetry");
    assertThat(misfits(set)).containsExactly(" CRITERION_DUPLICATE");
  }

  @Test
  void countBeyondTheGroup_isNamed() {
    ObjectNode set = set();
    ((ObjectNode) set.path("criteria")).put("type", "at-least").put("count", 10);
    assertThat(misfits(set)).containsExactly("/criteria/count COUNT_TOO_LARGE");
    ((ObjectNode) set.path("criteria")).put("count", 9);
    assertThat(misfits(set)).isEmpty();
  }

  @Test
  void informativeCriteria_mustFitToo() {
    ObjectNode set = set();
    ((ObjectNode) set.at("/informative/0")).put("measure", "long-jump");
    assertThat(misfits(set)).containsExactly("/informative/0/measure MEASURE_UNKNOWN");
  }

  private static ObjectNode set() {
    return (ObjectNode) Clinic.set("delaware-oslo/2020.1");
  }

  private static void torque(ObjectNode criterion, double bound) {
    criterion.put("measure", "knee-extension-peak-torque").put("aspect", "operated");
    criterion.put("unit", "N.m").put("bound", bound);
  }

  private static void perMass(ObjectNode criterion, double bound) {
    criterion.put("measure", "knee-extension-peak-torque").put("aspect", "operated-per-mass");
    criterion.put("unit", "N.m/kg").put("bound", bound);
  }

  private static void perHeight(ObjectNode criterion, String hop, double bound) {
    criterion.put("measure", hop).put("aspect", "operated-per-height");
    criterion.put("unit", "%").put("bound", bound);
  }

  private static List<String> misfits(JsonNode set) {
    CriteriaSet read = new CriteriaSetReader(READER, CATALOGUE).read(set, "");
    return Binding.misfits(read, CATALOGUE).stream()
        .map(misfit -> misfit.pointer() + " " + misfit.kind())
        .toList();
  }
}

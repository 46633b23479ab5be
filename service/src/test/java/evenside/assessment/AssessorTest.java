package evenside.assessment;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.intake.BatteryReader;
import evenside.intake.CatalogueReader;
import evenside.intake.InstrumentReader;
import evenside.limb.Side;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Measured;
import evenside.measure.Value;
import evenside.questionnaire.Instruments;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

class AssessorTest {
  private static final MeasureCatalogue CATALOGUE = new CatalogueReader(Clinic.CONTRACT).measures();
  private static final Instruments INSTRUMENTS =
      new InstrumentReader(CATALOGUE).instruments(Clinic.CONTRACT);
  private static final String AT = "2026-10-28T10:00:00+01:00";
  private static final String HOP = "single-hop-distance";
  private static final String EXTENSION = "knee-extension-peak-torque";
  private static final String RATIO = "hamstring-quadriceps-ratio";

  @Test
  void legsTestedAlike_areCompared() {
    AssessedBattery assessed = assess(day().hop(HOP, OPERATED, 150, 162).hop(HOP, OTHER, 180));
    assertThat(number(assessed, HOP, Aspect.OPERATED)).hasValue(162.0);
    assertThat(number(assessed, HOP, Aspect.OTHER)).hasValue(180.0);
    assertThat(number(assessed, HOP, Aspect.SYMMETRY)).hasValue(90.0);
    assertThat(assessed.comparisons()).hasSize(1);
    assertThat(assessed.comparisons().get(0).symmetry()).isEqualTo(90.0);
  }

  @Test
  void operatedSideRight_turnsTheComparisonRound() {
    TestDay day = day().hop(HOP, "left", 180).hop(HOP, "right", 162);
    AssessedBattery assessed = assess(day, Side.RIGHT);
    assertThat(number(assessed, HOP, Aspect.SYMMETRY)).hasValue(90.0);
    assertThat(number(assessed, HOP, Aspect.OPERATED)).hasValue(162.0);
  }

  @Test
  void trialThatDoesNotCount_doesNotCount() {
    TestDay day = day().hop(HOP, OPERATED, 162).invalid(200, "landing-not-held");
    assertThat(number(assess(day.hop(HOP, OTHER, 180)), HOP, Aspect.SYMMETRY)).hasValue(90.0);
  }

  static Stream<Arguments> differences() {
    Consumer<ObjectNode> device = result -> result.put("device", "dyn-2");
    Consumer<ObjectNode> speed = result -> ((ObjectNode) result.path("speed")).put("value", 180);
    Consumer<ObjectNode> gravity = result -> result.put("gravityCorrected", false);
    Consumer<ObjectNode> unsaid = result -> result.remove("gravityCorrected");
    Consumer<ObjectNode> mode = result -> result.put("action", "eccentric");
    Consumer<ObjectNode> mean = result -> result.put("aggregation", "mean");
    return Stream.of(
        Arguments.of("device", device),
        Arguments.of("speed", speed),
        Arguments.of("gravityCorrected", gravity),
        Arguments.of("gravityCorrected", unsaid),
        Arguments.of("mode", mode),
        Arguments.of("aggregation", mean));
  }

  /** Modes, speeds, angles and methods are never mixed in one ratio: common practice, no source. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("differences")
  void legsTestedDifferently_areNotCompared(String what, Consumer<ObjectNode> change) {
    TestDay day = day().extension(OPERATED, 60, 160).extension(OTHER, 60, 170).last(change);
    day.bodyMass(80);
    AssessedBattery assessed = assess(day);
    assertThat(number(assessed, EXTENSION, Aspect.SYMMETRY)).isEmpty();
    assertThat(assessed.gaps())
        .extracting(Gap::reason)
        .containsOnly(Gap.Reason.TESTED_DIFFERENTLY)
        .hasSize(2);
    assertThat(assessed.gaps()).allSatisfy(gap -> assertThat(gap.detail()).contains(what));
  }

  /**
   * The lone test at another speed has no partner; that the pair exists does not explain it. Own
   * rule, the torques invented.
   */
  @ParameterizedTest
  @MethodSource("lonely")
  void oneLegAloneBesideAPair_isNotTestedOnTheOtherSide(String side, Gap.Reason reason) {
    TestDay first = day().bodyMass(80).extension(side, 180, 120);
    pair(first);
    TestDay last = day().bodyMass(80);
    pair(last);
    last.extension(side, 180, 120);
    for (TestDay day : List.of(first, last)) {
      AssessedBattery assessed = assess(day);
      assertThat(number(assessed, EXTENSION, Aspect.SYMMETRY)).hasValue(80.0);
      assertThat(assessed.gaps()).extracting(Gap::reason).containsExactly(reason);
    }
  }

  static Stream<Arguments> lonely() {
    return Stream.of(
        Arguments.of(OPERATED, Gap.Reason.OTHER_SIDE_NOT_TESTED),
        Arguments.of(OTHER, Gap.Reason.OPERATED_SIDE_NOT_TESTED));
  }

  private static void pair(TestDay day) {
    day.extension(OPERATED, 60, 160).extension(OTHER, 60, 200);
  }

  /** Guard C39: nothing to divide by gives a reason and no number. */
  @Test
  void otherLegAtZero_givesAReasonAndNoNumber() {
    AssessedBattery assessed = assess(day().hop(HOP, OPERATED, 120).hop(HOP, OTHER, 0));
    assertThat(number(assessed, HOP, Aspect.SYMMETRY)).isEmpty();
    assertThat(assessed.gaps()).extracting(Gap::reason).contains(Gap.Reason.ZERO_VALUE);
    assertThat(assessed.comparisons().get(0).symmetry()).isNull();
  }

  @Test
  void operatedLegAtZero_isASymmetryOfZero() {
    AssessedBattery assessed = assess(day().hop(HOP, OPERATED, 0).hop(HOP, OTHER, 150));
    assertThat(number(assessed, HOP, Aspect.SYMMETRY)).hasValue(0.0);
  }

  @Test
  void motionOfExtension_isADifferenceAndNoRatio() {
    String lack = "knee-extension-deficit";
    AssessedBattery assessed =
        assess(day().extensionDeficit(OPERATED, 2).extensionDeficit(OTHER, -3));
    assertThat(number(assessed, lack, Aspect.DIFFERENCE)).hasValue(5.0);
    assertThat(number(assessed, lack, Aspect.SYMMETRY)).isEmpty();
  }

  @Test
  void torqueAndDistance_areRelatedToTheBodyOfTheDay() {
    TestDay day = day().extension(OPERATED, 60, 240).hop(HOP, OPERATED, 171);
    AssessedBattery without = assess(day);
    assertThat(without.gaps())
        .extracting(Gap::reason)
        .contains(Gap.Reason.BODY_MASS_MISSING, Gap.Reason.HEIGHT_MISSING);
    AssessedBattery with = assess(day.bodyMass(80).height(180));
    assertThat(number(with, EXTENSION, Aspect.OPERATED_PER_MASS)).hasValue(3.0);
    assertThat(number(with, HOP, Aspect.OPERATED_PER_HEIGHT)).hasValue(95.0);
    assertThat(with.gaps())
        .extracting(Gap::reason)
        .doesNotContain(Gap.Reason.BODY_MASS_MISSING, Gap.Reason.HEIGHT_MISSING);
  }

  @Test
  void hamstringToQuadriceps_joinsOneLegAtOneSpeed() {
    TestDay day = day().extension(OPERATED, 90, 250.7).flexion(OPERATED, 90, 141.4);
    day.extension(OTHER, 90, 241.1).flexion(OTHER, 90, 177.6).flexion(OPERATED, 180, 120);
    AssessedBattery assessed = assess(day);
    assertThat(number(assessed, RATIO, Aspect.OPERATED).orElseThrow()).isBetween(56.40, 56.41);
    assertThat(number(assessed, RATIO, Aspect.OTHER).orElseThrow()).isBetween(73.66, 73.67);
    assertThat(measured(assessed, RATIO)).hasSize(2);
  }

  @Test
  void bestExtensionAndMeanFlexion_giveNoRatio() {
    TestDay day = day().extension(OPERATED, 60, 150).flexion(OPERATED, 60, 90);
    day.last(flexion -> flexion.put("aggregation", "mean"));
    assertThat(measured(assess(day), RATIO)).isEmpty();
  }

  @Test
  void eccentricTorque_givesNoConventionalRatio() {
    TestDay day = day().extension(OPERATED, 60, 150).last(r -> r.put("action", "eccentric"));
    day.flexion(OPERATED, 60, 90).last(r -> r.put("action", "eccentric"));
    assertThat(measured(assess(day), RATIO)).isEmpty();
  }

  @Test
  void noExtensionTorque_givesAReasonAndNoRatio() {
    TestDay day = day().extension(OPERATED, 60, 0).flexion(OPERATED, 60, 90);
    AssessedBattery assessed = assess(day.bodyMass(80));
    assertThat(measured(assessed, RATIO)).isEmpty();
    assertThat(assessed.gaps())
        .anyMatch(g -> g.measure().equals(RATIO) && g.reason() == Gap.Reason.ZERO_VALUE);
  }

  @Test
  void testNotPerformed_isNeitherZeroNorFailed() {
    AssessedBattery assessed = assess(day().notPerformed(HOP, OPERATED, "pain"));
    assertThat(assessed.measured()).isEmpty();
    assertThat(assessed.gaps()).extracting(Gap::reason).containsExactly(Gap.Reason.NOT_PERFORMED);
    assertThat(assessed.gaps().get(0).detail()).contains("pain");
  }

  /** What is known of the operated leg does not go with a test of the other one. */
  @Test
  void testNotPerformedOnTheOtherLeg_leavesOpenWhatComparesBoth() {
    AssessedBattery assessed = assess(day().notPerformed(HOP, OTHER, "time"));
    assertThat(assessed.gaps())
        .extracting(Gap::aspect)
        .containsExactly(Aspect.OTHER, Aspect.SYMMETRY);
    AssessedBattery effusion = assess(day().notPerformed("knee-effusion-grade", OTHER, "other"));
    assertThat(effusion.gaps()).extracting(Gap::aspect).containsExactly(Aspect.OTHER);
  }

  private static TestDay day() {
    return TestDay.at(AT);
  }

  private static AssessedBattery assess(TestDay day) {
    return assess(day, Side.LEFT);
  }

  private static AssessedBattery assess(TestDay day, Side operated) {
    return Assessor.assess(
        new BatteryReader(CATALOGUE, INSTRUMENTS).read("b", day.json()), operated, CATALOGUE);
  }

  private static List<Measured> measured(AssessedBattery assessed, String measure) {
    return assessed.measured().stream().filter(m -> m.measure().equals(measure)).toList();
  }

  private static Optional<Double> number(AssessedBattery assessed, String measure, Aspect aspect) {
    return measured(assessed, measure).stream()
        .filter(m -> m.aspect() == aspect)
        .map(m -> ((Value.Amount) m.value()).quantity().value())
        .findFirst();
  }
}

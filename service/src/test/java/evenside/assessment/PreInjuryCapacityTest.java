package evenside.assessment;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.example.Verdict;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Estimated pre-injury capacity: the operated leg now against the other leg before surgery.
 *
 * <p>Source: Wellsandt (2017), J Orthop Sports Phys Ther 47:334–338.
 */
class PreInjuryCapacityTest {
  private static final String SET = "wellsandt-2017-pre-injury-capacity/1";
  private static final String CRITERION = "knee-extension-pre-injury-capacity";
  private static final String BEFORE = "2025-09-20T10:00:00+02:00";
  private static final String NOW = "2026-10-28T10:00:00+01:00";

  /** C07: symmetry 94.74 %, capacity 85.71 %. */
  @Test
  void otherLegWeakerThanBeforeSurgery_symmetryFlatters() {
    TestDay before = TestDay.at(BEFORE).extension(OTHER, 60, 210).extension(OPERATED, 60, 120);
    TestDay now = TestDay.at(NOW).extension(OPERATED, 60, 180).extension(OTHER, 60, 190);
    Verdict capacity = Clinic.ask(SET, before, now);
    assertThat(capacity.value(CRITERION)).isCloseTo(85.71, within(0.005));
    assertThat(capacity.outcome(CRITERION)).isEqualTo("not-met");
    Verdict symmetry = Clinic.ask("delaware-oslo/2020.1", before, now);
    assertThat(symmetry.value("knee-extension-symmetry")).isCloseTo(94.74, within(0.005));
    assertThat(symmetry.outcome("knee-extension-symmetry")).isEqualTo("met");
  }

  @Test
  void finding_saysWhatTheOperatedLegNeedsAndNamesBothInputs() {
    TestDay before = TestDay.at(BEFORE).extension(OTHER, 60, 210);
    TestDay now = TestDay.at(NOW).extension(OPERATED, 60, 180);
    JsonNode leaf = Clinic.ask(SET, before, now).leaf(CRITERION);
    assertThat(leaf.at("/toMeet/text").asString())
        .isEqualTo("operated leg needs at least 189 N.m, now 180 N.m");
    assertThat(leaf.at("/inputs/0/batteryId").asString()).isEqualTo("/batteries/1");
    assertThat(leaf.at("/inputs/0/role").asString()).isEqualTo("operated");
    assertThat(leaf.at("/inputs/1/batteryId").asString()).isEqualTo("/batteries/0");
    assertThat(leaf.at("/inputs/1/role").asString()).isEqualTo("other");
  }

  /** A time: less is better, so the quotient is turned round. */
  @Test
  void timedHop_isTurnedRound() {
    TestDay before = TestDay.at(BEFORE).timedHop(OTHER, 1.8);
    Verdict verdict = Clinic.ask(SET, before, TestDay.at(NOW).timedHop(OPERATED, 2.0));
    assertThat(verdict.value("timed-6m-hop-pre-injury-capacity")).isEqualTo(90);
    assertThat(verdict.outcome("timed-6m-hop-pre-injury-capacity")).isEqualTo("met");
  }

  /** The yardstick is from before the graft was taken; a history of its own it had already then. */
  @Test
  void donorLeg_wasSoundBeforeSurgery() {
    TestDay before = TestDay.at(BEFORE).extension(OTHER, 60, 210);
    TestDay now = TestDay.at(NOW).extension(OPERATED, 60, 200);
    ObjectNode donor = Clinic.person().put("graftHarvestSide", OTHER);
    assertThat(Clinic.ask(SET, donor, Clinic.TODAY, before, now).outcome(CRITERION))
        .isEqualTo("met");
    ObjectNode injured = donor.put("otherKnee", "previous-injury");
    assertThat(Clinic.ask(SET, injured, Clinic.TODAY, before, now).reason(CRITERION))
        .isEqualTo("other-knee-not-sound");
  }

  @Test
  void batteryFromBeforeSurgery_isNoResultOfTheOperatedKnee() {
    TestDay before = TestDay.meetingEverything(BEFORE);
    Verdict verdict = Clinic.ask("delaware-oslo/2020.1", before);
    assertThat(verdict.outcome()).isEqualTo("undetermined");
    assertThat(verdict.outcome("single-hop-symmetry")).isEqualTo("undetermined");
    assertThat(verdict.reason("single-hop-symmetry")).isEqualTo("not-tested");
    assertThat(verdict.reason("effusion")).isEqualTo("not-tested");
  }

  /**
   * Common practice, no source: nobody is tested for strength or hops after the surgery of that
   * day.
   */
  @Test
  void batteryOfTheDayOfSurgery_isFromBeforeIt() {
    String morning = Clinic.SURGERY + "T07:00:00+02:00";
    TestDay that = TestDay.at(morning).extension(OTHER, 60, 210);
    TestDay now = TestDay.at(NOW).extension(OPERATED, 60, 180);
    assertThat(Clinic.ask(SET, that, now).value(CRITERION)).isCloseTo(85.714, within(0.001));
    Verdict verdict = Clinic.ask("delaware-oslo/2020.1", TestDay.meetingEverything(morning));
    assertThat(verdict.outcome()).isEqualTo("undetermined");
    assertThat(verdict.reason("effusion")).isEqualTo("not-tested");
  }

  static Stream<Consumer<ObjectNode>> differences() {
    return Stream.of(
        result -> ((ObjectNode) result.path("speed")).put("value", 90),
        result -> result.put("device", "dyn-2"),
        result -> result.put("gravityCorrected", false),
        result -> result.put("aggregation", "mean"));
  }

  /**
   * Invented differences, one at a time, to exercise the rule that only like tests are compared.
   */
  @ParameterizedTest
  @MethodSource("differences")
  void yardstickTestedAnotherWay_isNoYardstick(Consumer<ObjectNode> change) {
    TestDay before = TestDay.at(BEFORE).extension(OTHER, 60, 210).last(change);
    TestDay now = TestDay.at(NOW).extension(OPERATED, 60, 180);
    assertThat(Clinic.ask(SET, before, now).reason(CRITERION)).isEqualTo("no-preoperative-value");
  }

  @Test
  void severalFromBeforeSurgery_theNewestAlikeIsTheYardstick() {
    TestDay first = TestDay.at("2025-08-01T10:00:00+02:00").extension(OTHER, 60, 250);
    TestDay second = TestDay.at(BEFORE).extension(OTHER, 60, 200);
    TestDay other = TestDay.at("2025-09-25T10:00:00+02:00").extension(OTHER, 180, 150);
    TestDay now = TestDay.at(NOW).extension(OPERATED, 60, 180);
    assertThat(Clinic.ask(SET, first, second, other, now).value(CRITERION)).isEqualTo(90);
  }

  @Test
  void yardstickOfZero_givesAReason() {
    TestDay before = TestDay.at(BEFORE).hop("single-hop-distance", OTHER, 0);
    TestDay now = TestDay.at(NOW).hop("single-hop-distance", OPERATED, 150);
    Verdict verdict = Clinic.ask(SET, before, now);
    assertThat(verdict.reason("single-hop-pre-injury-capacity")).isEqualTo("zero-value");
  }
}

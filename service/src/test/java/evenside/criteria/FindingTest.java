package evenside.criteria;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.example.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

/** What stands beside an outcome: the value, the bound, how far, what would meet it, and why. */
class FindingTest {
  private static final String SET = "delaware-oslo/2020.1";
  private static final String STRICT = "delaware-oslo/2016.1";
  private static final String NOW = "2026-10-28T10:00:00+01:00";

  @Test
  void strengthShortOfTheBound_saysWhatTheOperatedLegNeeds() {
    TestDay day = TestDay.at(NOW).extension(OPERATED, 60, 150, 148).extension(OTHER, 60, 192);
    JsonNode leaf = Clinic.ask(SET, day).leaf("knee-extension-symmetry");
    assertThat(leaf.at("/value/value").asDouble()).isEqualTo(78.125);
    assertThat(leaf.at("/value/unit").asString()).isEqualTo("%");
    assertThat(leaf.at("/bound/comparator").asString()).isEqualTo(">=");
    assertThat(leaf.at("/bound/value").asDouble()).isEqualTo(90);
    assertThat(leaf.at("/margin/value").asDouble()).isEqualTo(-11.875);
    assertThat(leaf.at("/margin/unit").asString()).isEqualTo("%");
    assertThat(leaf.at("/toMeet/text").asString())
        .isEqualTo("operated leg needs at least 172.8 N.m, now 150 N.m");
    assertThat(leaf.at("/toMeet/operated/value").asDouble()).isEqualTo(172.8);
    assertThat(leaf.at("/toMeet/operated/unit").asString()).isEqualTo("N.m");
    assertThat(leaf.at("/toMeet/operated/comparator").asString()).isEqualTo(">=");
    assertThat(leaf.at("/reason/code").asString()).isEqualTo("short-of-bound");
    assertThat(leaf.at("/reason/text").asString())
        .isEqualTo("11.88 percentage points short of the cut-off");
    assertThat(leaf.at("/citation/source").asString()).isEqualTo("grindem-2020");
  }

  /** 11.5 s against less than 11 s (Kyritsis 2016): more is away from the bound. */
  @Test
  void timeBeyondTheBound_isOverItAndNotShortOfIt() {
    JsonNode leaf =
        Clinic.ask("kyritsis-2016-discharge/1", TestDay.at(NOW).tTest(11.5)).leaf("agility-t-test");
    assertThat(leaf.at("/margin/value").asDouble()).isEqualTo(-0.5);
    assertThat(leaf.at("/reason/code").asString()).isEqualTo("short-of-bound");
    assertThat(leaf.at("/reason/text").asString()).isEqualTo("0.5 s over the cut-off");
  }

  /** 2.00 s of the other leg and 90 % ask for at most 2.2222 s. */
  @Test
  void timedHopShortOfTheBound_asksForAShorterTime() {
    TestDay day = TestDay.at(NOW).timedHop(OPERATED, 2.5).timedHop(OTHER, 2.0);
    JsonNode leaf = Clinic.ask(SET, day).leaf("timed-6m-hop-symmetry");
    assertThat(leaf.at("/value/value").asDouble()).isEqualTo(80);
    assertThat(leaf.at("/toMeet/text").asString())
        .isEqualTo("operated leg needs at most 2.22 s, now 2.5 s");
    assertThat(leaf.at("/toMeet/operated/value").asDouble()).isEqualTo(2.222222222);
    assertThat(leaf.at("/toMeet/operated/comparator").asString()).isEqualTo("<=");
    JsonNode strict = Clinic.ask(STRICT, day).leaf("timed-6m-hop-symmetry");
    assertThat(strict.at("/toMeet/operated/comparator").asString()).isEqualTo("<");
  }

  /**
   * Doing exactly what is asked for meets the criterion, and a hair less does not; 0.9 times the
   * other leg, by hand.
   */
  @ParameterizedTest
  @CsvSource({"192, 172.8", "180, 162", "143.5, 129.15", "199.9, 179.91"})
  void whatWouldMeetIt_meetsIt(double other, double needed) {
    TestDay poor = TestDay.at(NOW).extension(OPERATED, 60, 60).extension(OTHER, 60, other);
    JsonNode leaf = Clinic.ask(SET, poor).leaf("knee-extension-symmetry");
    assertThat(leaf.at("/toMeet/operated/value").asDouble()).isEqualTo(needed);
    assertThat(outcome(needed, other)).isEqualTo("met");
    assertThat(outcome(needed - 0.001, other)).isEqualTo("not-met");
  }

  private static String outcome(double operated, double other) {
    TestDay day = TestDay.at(NOW).extension(OPERATED, 60, operated).extension(OTHER, 60, other);
    return Clinic.ask(SET, day).outcome("knee-extension-symmetry");
  }

  @Test
  void valueAtAStrictBound_saysThatTheBoundItselfDoesNotPass() {
    TestDay day = TestDay.at(NOW).extension(OPERATED, 60, 161.1).extension(OTHER, 60, 179);
    JsonNode leaf = Clinic.ask(STRICT, day).leaf("knee-extension-symmetry");
    assertThat(leaf.at("/reason/text").asString())
        .isEqualTo("exactly at the cut-off; this set asks for more than 90 %");
    assertThat(leaf.at("/toMeet/text").asString())
        .isEqualTo("operated leg needs more than 161.1 N.m, now 161.1 N.m");
  }

  @Test
  void torquePerMass_isTurnedBackIntoTorque() {
    TestDay day = TestDay.at(NOW).bodyMass(72.5).extension(OPERATED, 60, 180);
    JsonNode leaf = Clinic.ask("gokeler-welling/2018.1", day).leaf("knee-extension-per-mass-60");
    assertThat(leaf.at("/toMeet/text").asString())
        .isEqualTo("operated leg needs more than 217.5 N.m, now 180 N.m");
  }

  @Test
  void hamstringRatio_isTurnedBackIntoFlexionTorque() {
    TestDay day = TestDay.at(NOW).extension(OPERATED, 300, 120).flexion(OPERATED, 300, 60);
    JsonNode leaf = Clinic.ask("gokeler-welling/2018.1", day).leaf("hq-ratio-300-male");
    assertThat(leaf.at("/toMeet/text").asString())
        .isEqualTo("operated leg needs more than 75 N.m, now 60 N.m");
  }

  @Test
  void testWithoutSides_isAskedForInItsOwnUnit() {
    TestDay day = TestDay.at(NOW).tTest(11.6);
    JsonNode leaf = Clinic.ask("kyritsis-2016-discharge/1", day).leaf("agility-t-test");
    assertThat(leaf.at("/toMeet/text").asString()).endsWith("less than 11 s");
    assertThat(leaf.at("/toMeet/value/value").asDouble()).isEqualTo(11);
    assertThat(leaf.at("/toMeet/value/unit").asString()).isEqualTo("s");
    assertThat(leaf.at("/margin/value").asDouble()).isEqualTo(-0.6);
  }

  @Test
  void grade_isComparedByOrderAndHasNoMargin() {
    TestDay day = TestDay.at(NOW).effusion(OPERATED, "1+").effusion(OTHER, "zero");
    JsonNode leaf = Clinic.ask(SET, day).leaf("effusion");
    assertThat(leaf.path("value").asString()).isEqualTo("1+");
    assertThat(leaf.at("/bound/value").asString()).isEqualTo("trace");
    assertThat(leaf.has("margin")).isFalse();
    assertThat(leaf.at("/toMeet/text").asString())
        .isEqualTo("effusion of the operated knee: at most trace");
  }

  @Test
  void factStatedOtherwise_saysWhatWasStated() {
    TestDay day = TestDay.at(NOW).fact("on-field-programme-completed", false);
    Verdict verdict = Clinic.ask("kyritsis-2016-discharge/1", day);
    JsonNode leaf = verdict.leaf("on-field-programme-completed");
    assertThat(leaf.path("value").asBoolean(true)).isFalse();
    assertThat(verdict.reason("on-field-programme-completed")).isEqualTo("other-answer");
    assertThat(leaf.at("/reason/text").asString()).isEqualTo("stated: no");
  }

  /** Reid 2007: SEM 5.59 points for the timed hop; 90 lies within 1.96 × 5.59 of 95. */
  @Test
  void publishedError_standsBesideTheFindingAndChangesNothing() {
    TestDay day = TestDay.at(NOW).timedHop(OPERATED, 2.0).timedHop(OTHER, 1.9);
    JsonNode leaf = Clinic.ask(SET, day).leaf("timed-6m-hop-symmetry");
    JsonNode error = leaf.path("measurementError");
    assertThat(leaf.path("outcome").asString()).isEqualTo("met");
    assertThat(error.at("/sem/value").asDouble()).isEqualTo(5.59);
    assertThat(error.path("z").asDouble()).isEqualTo(1.96);
    assertThat(error.path("low").asDouble()).isEqualTo(84.0436);
    assertThat(error.path("high").asDouble()).isEqualTo(105.9564);
    assertThat(error.path("withinErrorOfBound").asBoolean()).isTrue();
    assertThat(error.path("clearOfBoundAt").asDouble()).isEqualTo(100.9564);
    assertThat(error.path("verified").asBoolean()).isTrue();
    assertThat(error.path("source").asString()).contains("Reid");
  }

  @Test
  void inputs_nameBatteryPlaceSideAndAge() {
    TestDay first = TestDay.at("2026-09-01T10:00:00+02:00").score("kos-adls", 80);
    TestDay second = TestDay.at(NOW).extension(OTHER, 60, 200).extension(OPERATED, 60, 190);
    JsonNode inputs = Clinic.ask(SET, first, second).leaf("knee-extension-symmetry").path("inputs");
    assertThat(inputs.size()).isEqualTo(2);
    JsonNode mine = inputs.path(0);
    assertThat(mine.path("batteryId").asString()).isEqualTo("/batteries/1");
    assertThat(mine.path("pointer").asString()).isEqualTo("/results/isokineticStrength/1");
    assertThat(mine.path("side").asString()).isEqualTo("left");
    assertThat(mine.path("role").asString()).isEqualTo("operated");
    assertThat(mine.at("/value/value").asDouble()).isEqualTo(190);
    assertThat(mine.path("aggregation").asString()).isEqualTo("best");
    assertThat(mine.at("/protocol/mode").asString()).isEqualTo("isokinetic-concentric");
    assertThat(mine.at("/protocol/speed/value").asDouble()).isEqualTo(60);
    assertThat(mine.path("performedOn").asString()).isEqualTo("2026-10-28");
    assertThat(mine.path("ageDays").asInt()).isEqualTo(5);
    assertThat(inputs.path(1).path("pointer").asString())
        .isEqualTo("/results/isokineticStrength/0");
    assertThat(inputs.path(1).path("role").asString()).isEqualTo("other");
  }

  /** Questionnaires 12: a published cut-off is a rounded attainable score; 62 of 70 is 88.571. */
  @ParameterizedTest
  @CsvSource({"90.0, met", "88.571, not-met", "89.94, not-met", "89.95, met", "91.4, met"})
  void questionnaireScore_isRoundedToTheCutOffsDecimals(double score, String outcome) {
    TestDay day = TestDay.at(NOW).score("kos-adls", score);
    JsonNode leaf = Clinic.ask(SET, day).leaf("kos-adls");
    assertThat(leaf.path("outcome").asString()).isEqualTo(outcome);
    assertThat(leaf.at("/value/value").asDouble()).isEqualTo(score);
  }
}

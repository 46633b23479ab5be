package evenside.assessment;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.example.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** Which of a person's results a decision looks at: asked through the published sets. */
class EvidenceTest {
  private static final String SET = "delaware-oslo/2020.1";
  private static final String HOP = "single-hop-distance";
  private static final String CRITERION = "single-hop-symmetry";
  private static final String EARLIER = "2026-10-01T10:00:00+02:00";
  private static final String LATER = "2026-10-28T10:00:00+01:00";
  private static final String AFTER = "2026-11-02T10:00:00+01:00";

  @Test
  void newestDay_wins() {
    TestDay good = TestDay.meetingEverything(EARLIER);
    TestDay poor = hops(LATER, 120, 180);
    assertThat(Clinic.ask(SET, good, poor).outcome(CRITERION)).isEqualTo("not-met");
    assertThat(Clinic.ask(SET, poor, good).outcome(CRITERION)).isEqualTo("not-met");
    TestDay better = hops(LATER, 175, 180);
    assertThat(Clinic.ask(SET, hops(EARLIER, 120, 180), better).outcome(CRITERION))
        .isEqualTo("met");
  }

  @Test
  void legsTestedOnDifferentDays_areNotCompared() {
    TestDay one = TestDay.at(EARLIER).hop(HOP, OPERATED, 170);
    TestDay two = TestDay.at(LATER).hop(HOP, OTHER, 180);
    Verdict verdict = Clinic.ask(SET, one, two);
    assertThat(verdict.outcome(CRITERION)).isEqualTo("undetermined");
    assertThat(verdict.reason(CRITERION)).isEqualTo("operated-side-not-tested");
  }

  @Test
  void newerTestThatWasNotPerformed_comesBeforeAnOlderResult() {
    TestDay refused = TestDay.at(LATER).notPerformed(HOP, OPERATED, "fear");
    Verdict verdict = Clinic.ask(SET, TestDay.meetingEverything(EARLIER), refused);
    assertThat(verdict.outcome(CRITERION)).isEqualTo("undetermined");
    assertThat(verdict.reason(CRITERION)).isEqualTo("not-performed");
    assertThat(verdict.leaf(CRITERION).at("/reason/text").asString()).contains("fear");
    assertThat(verdict.outcome()).isEqualTo("undetermined");
  }

  @Test
  void testThatWasNotPerformedEarlier_doesNotHideANewerResult() {
    TestDay refused = TestDay.at(EARLIER).notPerformed(HOP, OPERATED, "pain");
    assertThat(Clinic.ask(SET, refused, TestDay.meetingEverything(LATER)).outcome())
        .isEqualTo("met");
  }

  @Test
  void absenceExplainedTwice_isExplainedByTheNewest() {
    TestDay oneSide = TestDay.at(EARLIER).extension(OPERATED, 60, 200);
    TestDay refused = TestDay.at(LATER).notPerformed("knee-extension-peak-torque", "effusion");
    String strength = "knee-extension-symmetry";
    assertThat(Clinic.ask(SET, oneSide, refused).reason(strength)).isEqualTo("not-performed");
    TestDay before = TestDay.at(EARLIER).notPerformed("knee-extension-peak-torque", "effusion");
    TestDay after = TestDay.at(LATER).extension(OPERATED, 60, 200);
    assertThat(Clinic.ask(SET, before, after).reason(strength)).isEqualTo("other-side-not-tested");
  }

  @Test
  void sameBatteryWithOneSideDoneAndOneRefused_saysWhyItWasRefused() {
    TestDay day = TestDay.at(LATER).hop(HOP, OTHER, 180).notPerformed(HOP, OPERATED, "pain");
    assertThat(Clinic.ask(SET, day).reason(CRITERION)).isEqualTo("not-performed");
  }

  /**
   * Common practice, no source: the operated knee was graded, whatever is said of the other one.
   */
  @ParameterizedTest
  @CsvSource({"3+, not-met", "zero, met"})
  void laterRefusalOnTheOtherLeg_doesNotHideTheOperatedOne(String grade, String outcome) {
    TestDay refused = TestDay.at(LATER).notPerformed("knee-effusion-grade", OTHER, "other");
    TestDay graded = TestDay.at(EARLIER).effusion(OPERATED, grade);
    assertThat(Clinic.ask(SET, graded, refused).outcome("effusion")).isEqualTo(outcome);
    TestDay operated = TestDay.at(LATER).notPerformed("knee-effusion-grade", OPERATED, "other");
    assertThat(Clinic.ask(SET, graded, operated).outcome("effusion")).isEqualTo("undetermined");
  }

  @Test
  void laterRefusalOnTheOtherLeg_hidesTheSymmetry() {
    TestDay refused = TestDay.at(LATER).hop(HOP, OPERATED, 180).notPerformed(HOP, OTHER, "fear");
    Verdict verdict = Clinic.ask(SET, TestDay.meetingEverything(EARLIER), refused);
    assertThat(verdict.reason(CRITERION)).isEqualTo("not-performed");
  }

  /** A battery of 32 days’ age; counted on the calendar, own rule, no source. */
  @ParameterizedTest
  @CsvSource({"33, met", "32, met", "31, undetermined"})
  void resultOlderThanAllowed_decidesNothingAndIsShown(int allowed, String outcome) {
    Verdict verdict =
        Clinic.decide(
            Clinic.request(
                    Clinic.person(), java.util.List.of(SET), TestDay.meetingEverything(EARLIER))
                .put("asOf", Clinic.TODAY)
                .put("maxResultAgeDays", allowed));
    assertThat(verdict.outcome()).isEqualTo(outcome);
    if (outcome.equals("undetermined")) {
      JsonNode leaf = verdict.leaf(CRITERION);
      assertThat(verdict.reason(CRITERION)).isEqualTo("too-old");
      assertThat(leaf.at("/reason/text").asString()).contains("32 days old").contains("31 days");
      assertThat(verdict.value(CRITERION)).isEqualTo(100);
      assertThat(leaf.path("inputs").size()).isEqualTo(2);
      assertThat(leaf.has("margin")).isFalse();
      assertThat(verdict.outcome("time-since-surgery")).isEqualTo("met");
    }
  }

  @Test
  void resultsAfterTheDate_areIgnored() {
    TestDay poor = hops("2026-10-30T10:00:00+01:00", 100, 180);
    Verdict verdict =
        Clinic.ask(SET, Clinic.person(), "2026-10-29", TestDay.meetingEverything(LATER), poor);
    assertThat(verdict.outcome()).isEqualTo("met");
    assertThat(Clinic.ask(SET, TestDay.meetingEverything(LATER), poor).outcome())
        .isEqualTo("not-met");
  }

  /** The day is the clinic's: shortly after midnight there, still the day before in UTC. */
  @ParameterizedTest
  @CsvSource({
    "2026-10-29T00:30:00+14:00, 2026-10-28, undetermined",
    "2026-10-29T00:30:00+14:00, 2026-10-29, met",
    "2026-10-28T23:30:00-10:00, 2026-10-28, met",
    "2026-10-28T23:30:00-10:00, 2026-10-27, undetermined"
  })
  void dayOfATest_isTheClinicsDay(String performedAt, String asOf, String outcome) {
    TestDay day = TestDay.meetingEverything(performedAt);
    assertThat(Clinic.ask(SET, Clinic.person(), asOf, day).outcome()).isEqualTo(outcome);
  }

  /** With no date asked for, today is the clinic's today, so this morning's tests count. */
  @Test
  void dateNotAskedFor_isTodayOnTheClinicsCalendar() {
    TestDay inTheEast = TestDay.meetingEverything("2026-11-03T01:30:00+14:00");
    Verdict verdict =
        Clinic.decide(Clinic.request(Clinic.person(), java.util.List.of(SET), inTheEast));
    assertThat(verdict.json().path("asOf").asString()).isEqualTo("2026-11-03");
    assertThat(verdict.outcome()).isEqualTo("met");
    TestDay inTheWest = TestDay.meetingEverything("2026-11-01T20:00:00-12:00");
    assertThat(
            Clinic.decide(Clinic.request(Clinic.person(), java.util.List.of(SET), inTheWest))
                .json()
                .path("asOf")
                .asString())
        .isEqualTo("2026-11-02");
  }

  @Test
  void testDoneAnotherWay_isNotTheOneAskedFor() {
    TestDay day = TestDay.meetingEverything(LATER).without("knee-extension-peak-torque");
    day.extension(OPERATED, 180, 190).extension(OTHER, 180, 190);
    Verdict verdict = Clinic.ask("kyritsis-2016-discharge/1", day);
    assertThat(verdict.outcome("knee-extension-symmetry-60")).isEqualTo("undetermined");
    assertThat(verdict.reason("knee-extension-symmetry-60")).isEqualTo("other-protocol");
  }

  @Test
  void severalWaysOfTesting_theLeastFavourableCounts() {
    TestDay day = TestDay.meetingEverything(LATER);
    day.isometricExtension(OPERATED, 90, "fixed-dynamometer", 170);
    day.isometricExtension(OTHER, 90, "fixed-dynamometer", 200);
    Verdict verdict = Clinic.ask(SET, day);
    assertThat(verdict.value("knee-extension-symmetry")).isEqualTo(85);
    assertThat(verdict.outcome("knee-extension-symmetry")).isEqualTo("not-met");
    TestDay painful = TestDay.meetingEverything(LATER).pain(OPERATED, "worst-24h", 4);
    assertThat(Clinic.ask("rambaud-2018-running/1", painful).value("knee-pain")).isEqualTo(4);
  }

  /** Own rule, no source; the codes are those of a case. */
  @ParameterizedTest
  @ValueSource(strings = {"previous-injury", "previous-reconstruction"})
  void otherKneeWithAHistory_canShowADeficitButNotThatThereIsNone(String history) {
    var person = Clinic.person().put("otherKnee", history);
    Verdict good = Clinic.ask(SET, person, Clinic.TODAY, TestDay.meetingEverything(LATER));
    assertThat(good.outcome()).isEqualTo("undetermined");
    assertThat(good.outcome(CRITERION)).isEqualTo("undetermined");
    assertThat(good.reason(CRITERION)).isEqualTo("other-knee-not-sound");
    assertThat(good.outcome("kos-adls")).isEqualTo("met");
    assertThat(good.outcome("knee-extension-difference")).isEqualTo("undetermined");
    Verdict poor = Clinic.ask(SET, person, Clinic.TODAY, hops(LATER, 120, 180));
    assertThat(poor.outcome(CRITERION)).isEqualTo("not-met");
    assertThat(poor.outcome()).isEqualTo("not-met");
    assertThat(toMeet(poor))
        .startsWith("operated leg needs at least 162 cm, now 120 cm; it is undetermined even then")
        .contains("the other knee has a history of its own");
    assertThat(poor.leaf(CRITERION).at("/toMeet/leftOpenBy").asString())
        .isEqualTo("other-knee-not-sound");
    assertThat(toMeet(Clinic.ask(SET, hops(LATER, 120, 180))))
        .isEqualTo("operated leg needs at least 162 cm, now 120 cm");
  }

  private static String toMeet(Verdict verdict) {
    return verdict.leaf(CRITERION).path("toMeet").path("text").asString();
  }

  @Test
  void otherKneeOfUnknownHistory_countsAsSoundAndIsPointedOut() {
    var person = Clinic.person().put("otherKnee", "unknown");
    Verdict verdict = Clinic.ask(SET, person, Clinic.TODAY, TestDay.meetingEverything(LATER));
    assertThat(verdict.outcome()).isEqualTo("met");
    assertThat(verdict.cautions()).contains("other-knee-history");
  }

  /**
   * Shelbourne (2022), PMC9720827: with a graft from the other knee the donor leg loses strength
   * too, so that symmetry was 104 % at three months.
   */
  @Test
  void legTheGraftWasTakenFrom_canShowADeficitButNotThatThereIsNone() {
    var person = Clinic.person().put("graftHarvestSide", OTHER);
    Verdict good = Clinic.ask(SET, person, Clinic.TODAY, TestDay.meetingEverything(LATER));
    assertThat(good.outcome()).isEqualTo("undetermined");
    assertThat(good.reason(CRITERION)).isEqualTo("graft-from-other-leg");
    assertThat(good.reason("knee-extension-difference")).isEqualTo("graft-from-other-leg");
    assertThat(good.outcome("kos-adls")).isEqualTo("met");
    assertThat(good.cautions())
        .contains("graft-from-other-leg")
        .doesNotContain("other-knee-history", "graft-extensor-first");
    Verdict poor = Clinic.ask(SET, person, Clinic.TODAY, hops(LATER, 120, 180));
    assertThat(poor.outcome(CRITERION)).isEqualTo("not-met");
  }

  @Test
  void graftFromTheOperatedLeg_leavesTheOtherASoundYardstick() {
    var person = Clinic.person().put("graftHarvestSide", OPERATED);
    Verdict verdict = Clinic.ask(SET, person, Clinic.TODAY, TestDay.meetingEverything(LATER));
    assertThat(verdict.outcome()).isEqualTo("met");
    assertThat(verdict.cautions()).doesNotContain("graft-from-other-leg");
  }

  private static TestDay hops(String at, double operated, double other) {
    return TestDay.at(at).hop(HOP, OPERATED, operated).hop(HOP, OTHER, other);
  }
}

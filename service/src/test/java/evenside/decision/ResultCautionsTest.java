package evenside.decision;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.example.Verdict;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What about the tests and the signs calls for each caution. 2+ and above 100 % are the bounds of
 * the sources in the catalogue; 60 days and the warning signs are clinical prudence, no source. The
 * results are invented, each on a bound or just beyond it.
 */
class ResultCautionsTest {
  private static final String EARLIER = "2026-10-20T10:00:00+02:00";

  /**
   * Running asks for 70 %: 30 points are beyond the error of strength and hop, 10 deg of motion.
   */
  @Test
  void resultsFarFromTheirBounds_areNotNear() {
    String set = "rambaud-2018-running/1";
    TestDay far =
        Plain.day()
            .without("knee-extension-deficit")
            .extensionDeficit(OPERATED, -10)
            .extensionDeficit(OTHER, -10);
    assertThat(Clinic.ask(set, Plain.person(), Clinic.TODAY, far).cautions())
        .containsExactly("clinician-decides", "does-not-rule-out-reinjury");
    TestDay near = far.without("single-hop-distance");
    near.hop("single-hop-distance", OPERATED, 130).hop("single-hop-distance", OTHER, 180);
    assertThat(Clinic.ask(set, Plain.person(), Clinic.TODAY, near).cautions())
        .contains("near-bound");
  }

  /**
   * 1.96 × 7.58 for strength (Lawrance 2017, derived) and 1.96 × 3.49 for the single hop (Reid
   * 2007, from memory): each result with the error of its own test.
   */
  @Test
  void resultsNearTheirBounds_areNamedWithTheirOwnErrors() {
    TestDay day =
        TestDay.at(Plain.NOW)
            .extension(OPERATED, 60, 190)
            .extension(OTHER, 60, 200)
            .hop("single-hop-distance", OPERATED, 165)
            .hop("single-hop-distance", OTHER, 180);
    assertThat(Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, day).cautionText("near-bound"))
        .endsWith(
            "Here: Quadriceps strength, symmetry, ± 14.86 % (not verified); Single hop for"
                + " distance, symmetry, ± 6.84 % (not verified).");
  }

  @Test
  void moreResultsThanThereIsRoomFor_areCounted() {
    Verdict verdict =
        Clinic.ask("gokeler-welling/2018.1", Plain.person(), Clinic.TODAY, Plain.day());
    assertThat(verdict.cautionText("near-bound")).endsWith(" more.").hasSizeLessThan(800);
  }

  static Stream<Arguments> days() {
    TestDay handHeld = Plain.day();
    for (String side : List.of(OPERATED, OTHER)) {
      handHeld.isometricExtension(
          side, 90, "hand-held-dynamometer", side.equals(OTHER) ? 200 : 190);
    }
    return Stream.of(
        Arguments.of("hand-held-dynamometer", handHeld),
        Arguments.of("old-results", TestDay.meetingEverything("2026-09-02T10:00:00+02:00")),
        Arguments.of("symmetry-above-100", Plain.dayWithHops(181, 180)),
        Arguments.of("healthy-people-fail-too", Plain.dayWithHops(120, 180)),
        Arguments.of("effusion-two-plus", effusion("2+")),
        Arguments.of("effusion-two-plus", effusion("3+")));
  }

  @ParameterizedTest
  @MethodSource("days")
  void aboutTheTests_callsForItsCaution(String caution, TestDay day) {
    assertThat(Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, day).cautions())
        .contains(caution);
    assertThat(Plain.verdict().cautions()).doesNotContain(caution);
  }

  static Stream<Arguments> otherDays() {
    TestDay fixed = Plain.day();
    for (String side : List.of(OPERATED, OTHER)) {
      fixed.isometricExtension(side, 90, "fixed-dynamometer", 200);
    }
    return Stream.of(
        Arguments.of("hand-held-dynamometer", fixed),
        Arguments.of("old-results", TestDay.meetingEverything("2026-09-03T10:00:00+02:00")),
        Arguments.of("symmetry-above-100", Plain.dayWithHops(180, 180)),
        Arguments.of("effusion-two-plus", effusion("1+")),
        Arguments.of("effusion-two-plus", Plain.day().effusion(OTHER, "3+")),
        Arguments.of(
            "healthy-people-fail-too", Plain.day().without("kos-adls").score("kos-adls", 40)));
  }

  @ParameterizedTest
  @MethodSource("otherDays")
  void aboutTheTestsJustBeyond_callsForNone(String caution, TestDay day) {
    assertThat(Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, day).cautions())
        .doesNotContain(caution);
  }

  @Test
  void shownHamstringRatio_saysThatItIsNoSubstitute() {
    String set = "gokeler-welling/2018.1";
    assertThat(Clinic.ask(set, Plain.person(), Clinic.TODAY, Plain.day()).cautions())
        .contains("hq-not-a-substitute");
    TestDay without = Plain.day().without("knee-flexion-peak-torque");
    assertThat(Clinic.ask(set, Plain.person(), Clinic.TODAY, without).cautions())
        .doesNotContain("hq-not-a-substitute");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "gives-way",
        "locking",
        "new-injury",
        "fever-or-wound-problem",
        "calf-pain-and-swelling"
      })
  void warningSign_isUrgentAndNamedWhateverElseWasMet(String sign) {
    Verdict verdict =
        Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, Plain.day().fact(sign, true));
    assertThat(verdict.outcome()).isEqualTo("met");
    assertThat(verdict.cautions()).startsWith("red-flag");
    assertThat(verdict.caution("red-flag").path("urgent").asBoolean()).isTrue();
    assertThat(verdict.cautionText("red-flag")).contains("Stated: " + sign.replace('-', ' '));
    assertThat(
            Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, Plain.day().fact(sign, false))
                .cautions())
        .doesNotContain("red-flag");
  }

  /** Clinical prudence, no source: a warning sign stands until somebody says that it is gone. */
  @Test
  void warningSign_standsUntilItIsDenied() {
    TestDay sign = TestDay.at(EARLIER).fact("locking", true).effusion(OPERATED, "2+");
    TestDay silent = Plain.day().without("knee-effusion-grade");
    assertThat(Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, sign, silent).cautions())
        .contains("red-flag", "effusion-two-plus");
    TestDay notAsked =
        Plain.day()
            .without("knee-effusion-grade")
            .notPerformed("locking", "time")
            .notPerformed("knee-effusion-grade", OPERATED, "time");
    assertThat(Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, sign, notAsked).cautions())
        .contains("red-flag", "effusion-two-plus");
    TestDay denied = Plain.day().fact("locking", false);
    assertThat(Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, sign, denied).cautions())
        .doesNotContain("red-flag", "effusion-two-plus");
  }

  /** A value from before surgery is old by design: it is the yardstick, not a result. */
  @Test
  void yardstickFromBeforeSurgery_isNoOldResult() {
    TestDay before = TestDay.meetingEverything("2025-09-20T10:00:00+02:00");
    Verdict verdict =
        Clinic.ask(
            "wellsandt-2017-pre-injury-capacity/1",
            Plain.person(),
            Clinic.TODAY,
            before,
            Plain.day());
    assertThat(verdict.outcome()).isEqualTo("met");
    assertThat(verdict.cautions()).doesNotContain("old-results");
  }

  /** What is said of legs compared today is not said of a leg and its yardstick from before. */
  @Test
  void preInjuryCapacity_isNoSymmetryOfToday() {
    TestDay before = TestDay.at("2025-09-20T10:00:00+02:00").extension(OTHER, 60, 180);
    String set = "wellsandt-2017-pre-injury-capacity/1";
    TestDay strong = TestDay.at(Plain.NOW).extension(OPERATED, 60, 200);
    assertThat(Clinic.ask(set, Plain.person(), Clinic.TODAY, before, strong).cautions())
        .doesNotContain("symmetry-above-100");
    TestDay weak = TestDay.at(Plain.NOW).extension(OPERATED, 60, 100);
    assertThat(Clinic.ask(set, Plain.person(), Clinic.TODAY, before, weak).cautions())
        .doesNotContain("healthy-people-fail-too");
  }

  @Test
  void oldResults_sayHowOldTheOldestIs() {
    TestDay old = TestDay.meetingEverything("2026-09-02T10:00:00+02:00");
    assertThat(Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, old).cautionText("old-results"))
        .endsWith("The oldest result used is 61 days old.");
  }

  private static TestDay effusion(String grade) {
    return Plain.day().without("knee-effusion-grade").effusion(OPERATED, grade);
  }
}

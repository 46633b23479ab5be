package evenside.decision;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

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
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What calls for each caution. Texts and their sources are those of the catalogue; under 25, nine
 * months, 2+ and above 100 % are the bounds of those sources, 60 days and the warning signs are
 * clinical prudence, no source.
 */
class CautionsTest {
  private static final String SET = "delaware-oslo/2020.1";
  private static final String EARLIER = "2026-10-20T10:00:00+02:00";
  private static final String NOW = "2026-10-28T10:00:00+01:00";

  /**
   * A case in which nothing calls for a caution but what always does, and the error of strength
   * symmetry, which is so wide that 100 % is near 90 %.
   */
  private static Verdict plain() {
    return Clinic.ask(SET, level2(), Clinic.TODAY, good());
  }

  private static ObjectNode level2() {
    ObjectNode person = Clinic.person().put("graft", "other");
    person.putObject("sport").put("name", "tennis").put("level", "level-2");
    return person;
  }

  private static TestDay good() {
    return TestDay.meetingEverything(NOW);
  }

  @Test
  void twoCautions_travelWithEveryDecision() {
    assertThat(plain().cautions())
        .containsExactly("clinician-decides", "does-not-rule-out-reinjury", "near-bound");
  }

  /**
   * Running asks for 70 %: 30 points are beyond the error of strength and hop, 10 deg of motion.
   */
  @Test
  void resultsFarFromTheirBounds_areNotNear() {
    String set = "rambaud-2018-running/1";
    TestDay far = good().without("knee-extension-lack").lack(OPERATED, -10).lack(OTHER, -10);
    assertThat(Clinic.ask(set, level2(), Clinic.TODAY, far).cautions())
        .containsExactly("clinician-decides", "does-not-rule-out-reinjury");
    TestDay near = far.without("single-hop-distance");
    near.hop("single-hop-distance", OPERATED, 130).hop("single-hop-distance", OTHER, 180);
    assertThat(Clinic.ask(set, level2(), Clinic.TODAY, near).cautions()).contains("near-bound");
  }

  /**
   * 1.96 × 7.58 for strength (Lawrance 2017, derived) and 1.96 × 3.49 for the single hop (Reid
   * 2007, from memory): each result with the error of its own test.
   */
  @Test
  void resultsNearTheirBounds_areNamedWithTheirOwnErrors() {
    TestDay day =
        TestDay.at(NOW)
            .extension(OPERATED, 60, 190)
            .extension(OTHER, 60, 200)
            .hop("single-hop-distance", OPERATED, 165)
            .hop("single-hop-distance", OTHER, 180);
    assertThat(text(Clinic.ask(SET, level2(), Clinic.TODAY, day), "near-bound"))
        .endsWith(
            "Here: Quadriceps strength, symmetry, ± 14.86 % (not verified); Single hop for"
                + " distance, symmetry, ± 6.84 % (not verified).");
  }

  @Test
  void moreResultsThanThereIsRoomFor_areCounted() {
    Verdict verdict = Clinic.ask("gokeler-welling/2018.1", level2(), Clinic.TODAY, good());
    assertThat(text(verdict, "near-bound")).endsWith(" more.").hasSizeLessThan(800);
  }

  static Stream<Arguments> people() {
    return Stream.of(
        Arguments.of("other-knee-history", level2().put("otherKnee", "unknown")),
        Arguments.of("other-knee-history", level2().put("otherKnee", "current-complaint")),
        Arguments.of("graft-from-other-leg", level2().put("graftHarvestSide", OTHER)),
        Arguments.of("revision-surgery", level2().put("revision", true)),
        Arguments.of("multiligament", did("multiligament-reconstruction")),
        Arguments.of("meniscal-repair", did("medial-meniscus-repair")),
        Arguments.of("meniscal-repair", did("lateral-meniscus-repair")),
        Arguments.of("allograft", level2().put("graft", "allograft")),
        Arguments.of("graft-extensor-first", level2().put("graft", "patellar-tendon")),
        Arguments.of("graft-extensor-first", level2().put("graft", "quadriceps-tendon")),
        Arguments.of("graft-flexor-first", level2().put("graft", "hamstring-tendon")),
        Arguments.of("age-under-25", level2().put("birthYear", 2001)),
        Arguments.of("young-symmetry-counter-evidence", level2().put("birthYear", 2001)),
        Arguments.of("level-1-sport", sport("level-1")),
        Arguments.of("population-differs", sport("level-3")),
        Arguments.of("population-differs", Clinic.person().put("graft", "other")),
        Arguments.of("surgeon-limits", limited("2026-11-02")),
        Arguments.of("before-nine-months", level2().put("surgeryDate", "2026-02-03")));
  }

  @ParameterizedTest
  @MethodSource("people")
  void aboutThePerson_callsForItsCaution(String caution, ObjectNode person) {
    Verdict verdict = Clinic.ask(SET, person, Clinic.TODAY, good());
    assertThat(verdict.cautions()).contains(caution);
    assertThat(plain().cautions()).doesNotContain(caution);
  }

  static Stream<Arguments> otherPeople() {
    return Stream.of(
        Arguments.of("meniscal-repair", did("medial-meniscus-resection")),
        Arguments.of("age-under-25", level2().put("birthYear", 2000)),
        Arguments.of("young-symmetry-counter-evidence", level2().put("birthYear", 2000)),
        Arguments.of("surgeon-limits", limited("2026-11-01")),
        Arguments.of("before-nine-months", level2().put("surgeryDate", "2026-02-02")),
        Arguments.of("population-differs", sport("level-1")));
  }

  @ParameterizedTest
  @MethodSource("otherPeople")
  void aboutThePersonJustBeyond_callsForNone(String caution, ObjectNode person) {
    assertThat(Clinic.ask(SET, person, Clinic.TODAY, good()).cautions()).doesNotContain(caution);
  }

  @Test
  void limitOfTheSurgeon_isNamed() {
    assertThat(text(Clinic.ask(SET, limited("2026-11-02"), Clinic.TODAY, good()), "surgeon-limits"))
        .endsWith("Limits: no contact.");
  }

  @Test
  void setForTheStartOfAProgression_saysThatItIsNotForCompetition() {
    Verdict verdict = Clinic.ask("adams-2012-progression-entry/1", level2(), Clinic.TODAY, good());
    assertThat(verdict.cautions()).contains("designed-for-progression-entry");
    assertThat(verdict.cautions()).doesNotContain("before-nine-months");
  }

  @Test
  void setForAnEarlierGate_doesNotTalkOfNineMonths() {
    ObjectNode person = level2().put("surgeryDate", "2026-06-01");
    assertThat(Clinic.ask("rambaud-2018-running/1", person, Clinic.TODAY, good()).cautions())
        .doesNotContain("before-nine-months");
    assertThat(Clinic.ask("kyritsis-2016-discharge/1", person, Clinic.TODAY, good()).cautions())
        .contains("before-nine-months", "population-differs");
  }

  static Stream<Arguments> days() {
    TestDay handHeld = good();
    for (String side : List.of(OPERATED, OTHER)) {
      handHeld.isometricExtension(
          side, 90, "hand-held-dynamometer", side.equals(OTHER) ? 200 : 190);
    }
    return Stream.of(
        Arguments.of("hand-held-dynamometer", handHeld),
        Arguments.of("old-results", TestDay.meetingEverything("2026-09-02T10:00:00+02:00")),
        Arguments.of("symmetry-above-100", hops(181, 180)),
        Arguments.of("healthy-people-fail-too", hops(120, 180)),
        Arguments.of("effusion-two-plus", effusion("2+")),
        Arguments.of("effusion-two-plus", effusion("3+")));
  }

  @ParameterizedTest
  @MethodSource("days")
  void aboutTheTests_callsForItsCaution(String caution, TestDay day) {
    assertThat(Clinic.ask(SET, level2(), Clinic.TODAY, day).cautions()).contains(caution);
    assertThat(plain().cautions()).doesNotContain(caution);
  }

  static Stream<Arguments> otherDays() {
    TestDay fixed = good();
    for (String side : List.of(OPERATED, OTHER)) {
      fixed.isometricExtension(side, 90, "fixed-dynamometer", 200);
    }
    return Stream.of(
        Arguments.of("hand-held-dynamometer", fixed),
        Arguments.of("old-results", TestDay.meetingEverything("2026-09-03T10:00:00+02:00")),
        Arguments.of("symmetry-above-100", hops(180, 180)),
        Arguments.of("effusion-two-plus", effusion("1+")),
        Arguments.of("effusion-two-plus", good().effusion(OTHER, "3+")),
        Arguments.of("healthy-people-fail-too", good().without("kos-adls").score("kos-adls", 40)));
  }

  @ParameterizedTest
  @MethodSource("otherDays")
  void aboutTheTestsJustBeyond_callsForNone(String caution, TestDay day) {
    assertThat(Clinic.ask(SET, level2(), Clinic.TODAY, day).cautions()).doesNotContain(caution);
  }

  @Test
  void shownHamstringRatio_saysThatItIsNoSubstitute() {
    String set = "gokeler-welling/2018.1";
    assertThat(Clinic.ask(set, level2(), Clinic.TODAY, good()).cautions())
        .contains("hq-not-a-substitute");
    TestDay without = good().without("knee-flexion-peak-torque");
    assertThat(Clinic.ask(set, level2(), Clinic.TODAY, without).cautions())
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
    Verdict verdict = Clinic.ask(SET, level2(), Clinic.TODAY, good().fact(sign, true));
    assertThat(verdict.outcome()).isEqualTo("met");
    assertThat(verdict.cautions()).startsWith("red-flag");
    assertThat(caution(verdict, "red-flag").path("urgent").asBoolean()).isTrue();
    assertThat(text(verdict, "red-flag")).contains("Stated: " + sign.replace('-', ' '));
    assertThat(Clinic.ask(SET, level2(), Clinic.TODAY, good().fact(sign, false)).cautions())
        .doesNotContain("red-flag");
  }

  /** Clinical prudence, no source: a warning sign stands until somebody says that it is gone. */
  @Test
  void warningSign_standsUntilItIsDenied() {
    TestDay sign = TestDay.at(EARLIER).fact("locking", true).effusion(OPERATED, "2+");
    TestDay silent = good().without("knee-effusion-grade");
    assertThat(Clinic.ask(SET, level2(), Clinic.TODAY, sign, silent).cautions())
        .contains("red-flag", "effusion-two-plus");
    TestDay notAsked =
        good()
            .without("knee-effusion-grade")
            .notPerformed("locking", "time")
            .notPerformed("knee-effusion-grade", OPERATED, "time");
    assertThat(Clinic.ask(SET, level2(), Clinic.TODAY, sign, notAsked).cautions())
        .contains("red-flag", "effusion-two-plus");
    TestDay denied = good().fact("locking", false);
    assertThat(Clinic.ask(SET, level2(), Clinic.TODAY, sign, denied).cautions())
        .doesNotContain("red-flag", "effusion-two-plus");
  }

  /** A value from before surgery is old by design: it is the yardstick, not a result. */
  @Test
  void yardstickFromBeforeSurgery_isNoOldResult() {
    TestDay before = TestDay.meetingEverything("2025-09-20T10:00:00+02:00");
    Verdict verdict =
        Clinic.ask("wellsandt-2017-pre-injury-capacity/1", level2(), Clinic.TODAY, before, good());
    assertThat(verdict.outcome()).isEqualTo("met");
    assertThat(verdict.cautions()).doesNotContain("old-results");
  }

  /** What is said of legs compared today is not said of a leg and its yardstick from before. */
  @Test
  void preInjuryCapacity_isNoSymmetryOfToday() {
    TestDay before = TestDay.at("2025-09-20T10:00:00+02:00").extension(OTHER, 60, 180);
    String set = "wellsandt-2017-pre-injury-capacity/1";
    TestDay strong = TestDay.at(NOW).extension(OPERATED, 60, 200);
    assertThat(Clinic.ask(set, level2(), Clinic.TODAY, before, strong).cautions())
        .doesNotContain("symmetry-above-100");
    TestDay weak = TestDay.at(NOW).extension(OPERATED, 60, 100);
    assertThat(Clinic.ask(set, level2(), Clinic.TODAY, before, weak).cautions())
        .doesNotContain("healthy-people-fail-too");
  }

  @Test
  void oldResults_sayHowOldTheOldestIs() {
    TestDay old = TestDay.meetingEverything("2026-09-02T10:00:00+02:00");
    assertThat(text(Clinic.ask(SET, level2(), Clinic.TODAY, old), "old-results"))
        .endsWith("The oldest result used is 61 days old.");
  }

  @Test
  void cautions_changeNoOutcome() {
    ObjectNode person = did("medial-meniscus-repair").put("revision", true).put("birthYear", 2006);
    TestDay day = good().fact("new-injury", true);
    Verdict verdict = Clinic.ask(SET, person, Clinic.TODAY, day);
    assertThat(verdict.cautions().size()).isGreaterThan(plain().cautions().size() + 4);
    assertThat(verdict.json().path("finding")).isEqualTo(plain().json().path("finding"));
    assertThat(verdict.outcome()).isEqualTo("met");
  }

  @Test
  void texts_areThoseOfTheCatalogue() {
    ObjectNode person = did("medial-meniscus-repair").put("graft", "allograft");
    Verdict verdict = Clinic.ask(SET, person, Clinic.TODAY, hops(120, 180));
    assertThat(verdict.json().path("cautions").size()).isGreaterThan(4);
    for (JsonNode caution : verdict.json().path("cautions")) {
      JsonNode entry = entry(caution.path("code").asString());
      assertThat(caution.path("text").asString()).startsWith(entry.path("text").asString());
      assertThat(caution.path("urgent")).isEqualTo(entry.path("urgent"));
      assertThat(caution.has("source")).isEqualTo(entry.has("source"));
    }
  }

  @Test
  void catalogueWithoutAText_isRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Cautions(List.of()))
        .withMessageContaining("red-flag");
  }

  private static TestDay hops(double operated, double other) {
    TestDay day = good().without("single-hop-distance");
    return day.hop("single-hop-distance", OPERATED, operated)
        .hop("single-hop-distance", OTHER, other);
  }

  private static TestDay effusion(String grade) {
    return good().without("knee-effusion-grade").effusion(OPERATED, grade);
  }

  private static ObjectNode did(String procedure) {
    ObjectNode person = level2();
    person.putArray("concomitant").add(procedure);
    return person;
  }

  private static ObjectNode sport(String level) {
    ObjectNode person = level2();
    person.putObject("sport").put("name", "handball").put("level", level);
    return person;
  }

  private static ObjectNode limited(String until) {
    ObjectNode person = level2();
    person.putArray("surgeonLimits").addObject().put("limit", "no-contact").put("until", until);
    return person;
  }

  private static String text(Verdict verdict, String code) {
    return caution(verdict, code).path("text").asString();
  }

  private static JsonNode caution(Verdict verdict, String code) {
    return find(verdict.json().path("cautions"), code);
  }

  private static JsonNode entry(String code) {
    return find(Clinic.CONTRACT.catalogue("cautions").path("cautions"), code);
  }

  private static JsonNode find(JsonNode cautions, String code) {
    return cautions
        .valueStream()
        .filter(one -> one.path("code").asString().equals(code))
        .findFirst()
        .orElseThrow();
  }
}

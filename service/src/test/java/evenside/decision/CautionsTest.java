package evenside.decision;

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
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What about a person and a criteria set calls for each caution, and what every caution says; what
 * about the tests: {@link ResultCautionsTest}. Texts and their sources are those of the catalogue;
 * under 25 and nine months are the bounds of those sources. The people are invented, each on a
 * bound or just beyond it.
 */
class CautionsTest {
  @Test
  void twoCautions_travelWithEveryDecision() {
    assertThat(Plain.verdict().cautions())
        .containsExactly("clinician-decides", "does-not-rule-out-reinjury", "near-bound");
  }

  static Stream<Arguments> people() {
    return Stream.of(
        Arguments.of("other-knee-history", Plain.person().put("otherKnee", "unknown")),
        Arguments.of("other-knee-history", Plain.person().put("otherKnee", "current-complaint")),
        Arguments.of("graft-from-other-leg", Plain.person().put("graftHarvestSide", OTHER)),
        Arguments.of("revision-surgery", Plain.person().put("revision", true)),
        Arguments.of("multiligament", did("multiligament-reconstruction")),
        Arguments.of("meniscal-repair", did("medial-meniscus-repair")),
        Arguments.of("meniscal-repair", did("lateral-meniscus-repair")),
        Arguments.of("allograft", Plain.person().put("graft", "allograft")),
        Arguments.of("graft-extensor-first", Plain.person().put("graft", "patellar-tendon")),
        Arguments.of("graft-extensor-first", Plain.person().put("graft", "quadriceps-tendon")),
        Arguments.of("graft-flexor-first", Plain.person().put("graft", "hamstring-tendon")),
        Arguments.of("age-under-25", Plain.person().put("birthYear", 2001)),
        Arguments.of("young-symmetry-counter-evidence", Plain.person().put("birthYear", 2001)),
        Arguments.of("level-1-sport", sport("level-1")),
        Arguments.of("population-differs", sport("level-3")),
        Arguments.of("population-not-stated", Clinic.person().put("graft", "other")),
        Arguments.of("surgeon-limits", limited("2026-11-02")),
        Arguments.of("before-nine-months", Plain.person().put("surgeryDate", "2026-02-03")));
  }

  @ParameterizedTest
  @MethodSource("people")
  void aboutThePerson_callsForItsCaution(String caution, ObjectNode person) {
    Verdict verdict = Clinic.ask(Plain.SET, person, Clinic.TODAY, Plain.day());
    assertThat(verdict.cautions()).contains(caution);
    assertThat(Plain.verdict().cautions()).doesNotContain(caution);
  }

  static Stream<Arguments> otherPeople() {
    return Stream.of(
        Arguments.of("meniscal-repair", did("medial-meniscus-resection")),
        Arguments.of("age-under-25", Plain.person().put("birthYear", 2000)),
        Arguments.of("young-symmetry-counter-evidence", Plain.person().put("birthYear", 2000)),
        Arguments.of("surgeon-limits", limited("2026-11-01")),
        Arguments.of("before-nine-months", Plain.person().put("surgeryDate", "2026-02-02")),
        Arguments.of("population-differs", sport("level-1")));
  }

  @ParameterizedTest
  @MethodSource("otherPeople")
  void aboutThePersonJustBeyond_callsForNone(String caution, ObjectNode person) {
    assertThat(Clinic.ask(Plain.SET, person, Clinic.TODAY, Plain.day()).cautions())
        .doesNotContain(caution);
  }

  @Test
  void limitOfTheSurgeon_isNamed() {
    assertThat(
            Clinic.ask(Plain.SET, limited("2026-11-02"), Clinic.TODAY, Plain.day())
                .cautionText("surgeon-limits"))
        .endsWith("Limits: no contact.");
  }

  @Test
  void setForTheStartOfAProgression_saysThatItIsNotForCompetition() {
    Verdict verdict =
        Clinic.ask("adams-2012-progression-entry/1", Plain.person(), Clinic.TODAY, Plain.day());
    assertThat(verdict.cautions()).contains("designed-for-progression-entry");
    assertThat(verdict.cautions()).doesNotContain("before-nine-months");
  }

  @Test
  void setForAnEarlierMilestone_doesNotTalkOfNineMonths() {
    ObjectNode person = Plain.person().put("surgeryDate", "2026-06-01");
    assertThat(Clinic.ask("rambaud-2018-running/1", person, Clinic.TODAY, Plain.day()).cautions())
        .doesNotContain("before-nine-months");
    assertThat(
            Clinic.ask("kyritsis-2016-discharge/1", person, Clinic.TODAY, Plain.day()).cautions())
        .contains("before-nine-months", "population-not-stated");
  }

  /** The set of Kyritsis 2016 was studied on professional men. */
  @Test
  void peopleStudied_differAndWhatIsNotStatedAreToldApart() {
    ObjectNode person = Plain.person().put("sex", "female");
    Verdict verdict = Clinic.ask("kyritsis-2016-discharge/1", person, Clinic.TODAY, Plain.day());
    assertThat(verdict.cautionText("population-differs"))
        .endsWith(" Here: sex (here female, studied male).");
    assertThat(verdict.cautionText("population-not-stated"))
        .endsWith(" Not stated: standard of sport.");
    ((ObjectNode) person.path("sport")).put("standard", "recreational");
    verdict = Clinic.ask("kyritsis-2016-discharge/1", person, Clinic.TODAY, Plain.day());
    assertThat(verdict.cautionText("population-differs"))
        .endsWith("studied male), standard of sport (here recreational, studied professional).");
    assertThat(verdict.cautions()).doesNotContain("population-not-stated");
    person.put("sex", "not-stated");
    verdict = Clinic.ask(Plain.SET, person, Clinic.TODAY, Plain.day());
    assertThat(verdict.cautions()).doesNotContain("population-differs", "population-not-stated");
  }

  @Test
  void sportLevelStudied_isNamedInWords() {
    assertThat(
            Clinic.ask(Plain.SET, sport("level-3"), Clinic.TODAY, Plain.day())
                .cautionText("population-differs"))
        .endsWith(" Here: sport level (here level 3, studied level 1 or level 2).");
  }

  /** One sentence for the counts and one for each outcome, with titles and not with ids. */
  @Test
  void summary_namesTitlesOfWhatIsNotMetOrUndetermined() {
    TestDay day = Plain.dayWithHops(120, 180).without("knee-effusion-grade");
    Verdict verdict = Clinic.ask(Plain.SET, Plain.person(), Clinic.TODAY, day);
    assertThat(verdict.json().path("summary").asString())
        .isEqualTo(
            "Criteria not met: 7 of 9 required criteria are met. 1 not met: Single hop for"
                + " distance, symmetry. 1 undetermined: Effusion of the operated knee.");
    assertThat(verdict.notMet()).containsExactly("single-hop-symmetry");
  }

  @Test
  void listLongerThanItsRoom_endsWithTheCountOfTheRest() {
    assertThat(Listed.within(10, List.of("one", "two", "three"))).isEqualTo("one; two; and 1 more");
    assertThat(Listed.within(2, List.of("one", "two"))).isEqualTo("2 more");
    assertThat(Listed.within(15, List.of("one", "two", "three"))).isEqualTo("one; two; three");
    assertThat(Listed.within(15, List.of())).isEmpty();
  }

  @Test
  void cautions_changeNoOutcome() {
    ObjectNode person = did("medial-meniscus-repair").put("revision", true).put("birthYear", 2006);
    TestDay day = Plain.day().fact("new-injury", true);
    Verdict verdict = Clinic.ask(Plain.SET, person, Clinic.TODAY, day);
    assertThat(verdict.cautions().size()).isGreaterThan(Plain.verdict().cautions().size() + 4);
    assertThat(verdict.json().path("finding")).isEqualTo(Plain.verdict().json().path("finding"));
    assertThat(verdict.outcome()).isEqualTo("met");
  }

  @Test
  void texts_areThoseOfTheCatalogue() {
    ObjectNode person = did("medial-meniscus-repair").put("graft", "allograft");
    Verdict verdict = Clinic.ask(Plain.SET, person, Clinic.TODAY, Plain.dayWithHops(120, 180));
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

  private static ObjectNode did(String procedure) {
    ObjectNode person = Plain.person();
    person.putArray("concomitant").add(procedure);
    return person;
  }

  private static ObjectNode sport(String level) {
    ObjectNode person = Plain.person();
    person.putObject("sport").put("name", "handball").put("level", level);
    return person;
  }

  private static ObjectNode limited(String until) {
    ObjectNode person = Plain.person();
    person.putArray("surgeonLimits").addObject().put("limit", "no-contact").put("until", until);
    return person;
  }

  private static JsonNode entry(String code) {
    return Clinic.CONTRACT
        .catalogue("cautions")
        .path("cautions")
        .valueStream()
        .filter(one -> one.path("code").asString().equals(code))
        .findFirst()
        .orElseThrow();
  }
}

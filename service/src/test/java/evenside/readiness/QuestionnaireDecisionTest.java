package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.readiness.recording.Recorded;
import evenside.schemas.Contract;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** Questionnaires on their way into a decision. */
class QuestionnaireDecisionTest {
  private static final Contract CONTRACT = Contract.published();
  private static final Desk DESK = OneVisit.desk(CONTRACT);

  /** A published set with the 14-item survey at 90 or more and the global rating at 90 or more. */
  private static final String SET = "adams-2012-progression-entry/1";

  private static final String Q17 = sheet("kos-adls", "5 5 4 5 5 5 5 4 4 5 4 5 4 3");
  private static final String ONE_LESS = sheet("kos-adls", "5 5 4 5 5 5 5 4 4 5 4 5 4 2");
  private static final String ONE_MISSING = sheet("kos-adls", "5 5 4 5 5 5 5 4 4 5 4 5 4 -");

  /** Q17: 63 of 70 is 90, 62 of 70 is 88.571; by hand. */
  @Test
  void answers_at_the_bound_meet_it_and_one_point_less_does_not() {
    JsonNode met = finding(assess(OneVisit.battery(22, Q17)));
    assertThat(met.path("outcome").asString()).isEqualTo("met");
    assertThat(met.path("value").path("value").asDouble()).isEqualTo(90);
    JsonNode input = met.path("inputs").path(0);
    assertThat(input.path("valueSource").asString()).isEqualTo("computed");
    assertThat(input.path("pointer").asString()).isEqualTo("/results/questionnaire/0");
    JsonNode origin = input.path("questionnaire");
    assertThat(origin.path("instrument").asString()).isEqualTo("kos-adls");
    assertThat(origin.path("version").asString()).isEqualTo("items-14");
    assertThat(origin.path("answered").asInt()).isEqualTo(14);
    assertThat(origin.path("needed").asInt()).isEqualTo(14);
    JsonNode short1 = finding(assess(OneVisit.battery(22, ONE_LESS)));
    assertThat(short1.path("outcome").asString()).isEqualTo("not-met");
  }

  @Test
  void too_few_answers_leave_the_criterion_undetermined() {
    JsonNode open = finding(assess(OneVisit.battery(22, ONE_MISSING)));
    assertThat(open.path("outcome").asString()).isEqualTo("undetermined");
    assertThat(open.path("reason").path("code").asString()).isEqualTo("not-scorable");
    assertThat(open.path("reason").path("text").asString())
        .startsWith("13 of 14 answered, 14 needed");
    assertThat(open.has("value")).isFalse();
  }

  @Test
  void newer_sheet_with_too_few_answers_comes_before_an_older_score() {
    JsonNode open = finding(assess(OneVisit.battery(15, Q17), OneVisit.battery(22, ONE_MISSING)));
    assertThat(open.path("reason").path("code").asString()).isEqualTo("not-scorable");
    JsonNode later = finding(assess(OneVisit.battery(15, ONE_MISSING), OneVisit.battery(22, Q17)));
    assertThat(later.path("outcome").asString()).isEqualTo("met");
  }

  @Test
  void score_without_answers_decides_and_shows_that_it_was_only_reported() {
    String reported =
        """
        {"instrument": "kos-adls", "scores": [{"measure": "kos-adls", "score": 91.4}]}""";
    JsonNode met = finding(assess(OneVisit.battery(22, reported)));
    assertThat(met.path("outcome").asString()).isEqualTo("met");
    JsonNode input = met.path("inputs").path(0);
    assertThat(input.path("valueSource").asString()).isEqualTo("reported-only");
    assertThat(input.path("questionnaire").has("answered")).isFalse();
  }

  @Test
  void every_score_of_a_battery_is_in_the_answer() {
    String koos =
        """
        {"instrument": "koos", "responses": [{"item": "P1", "answer": 1}, {"item": "P3", "answer":
        1}, {"item": "P5", "answer": 0}, {"item": "P6", "answer": 1}, {"item": "P9", "answer": 1},
        {"item": "SP1", "answer": 1}], "scores": [{"measure": "koos-quality-of-life", "score":
        62.5}]}""";
    String lysholm = sheet("lysholm", "5 5 15 20 25 10 10 4");
    JsonNode answer = assess(OneVisit.battery(22, koos + "," + lysholm));
    List<String> seen = new ArrayList<>();
    for (JsonNode score : answer.path("symmetry").path(0).path("scores")) {
      seen.add(
          String.join(
              " ",
              score.path("measure").asString(),
              score.path("display").asString("-"),
              score.path("valueSource").asString("-"),
              score.path("reason").path("code").asString("-")));
    }
    assertThat(seen)
        .containsExactly(
            "koos-pain 80.0 computed -", // Q11
            "koos-sport-recreation - - not-scorable",
            "koos-quality-of-life 62.5 reported-only -",
            "lysholm 94.0 computed -");
    List<String> bands = new ArrayList<>();
    answer
        .path("symmetry")
        .path(0)
        .path("scores")
        .path(3)
        .path("questionnaire")
        .path("bands")
        .forEach(
            band ->
                bands.add(band.path("bandSet").asString() + " " + band.path("band").asString()));
    assertThat(bands).containsExactly("bands-95-84-65 good", "bands-91-84-65 excellent");
    assertThat(CONTRACT.validate("assessment", answer)).isEmpty();
  }

  /** A level that is not asked again is still known; a change that lacks half of it is not. */
  @Test
  void tegner_level_before_the_injury_is_asked_once() {
    String both = sheet("tegner", "9 6");
    String onlyNow = sheet("tegner", "- 7");
    JsonNode answer = assess(OneVisit.battery(15, both), OneVisit.battery(22, onlyNow));
    List<String> seen = new ArrayList<>();
    for (JsonNode battery : answer.path("symmetry")) {
      for (JsonNode score : battery.path("scores")) {
        seen.add(
            score.path("measure").asString()
                + " "
                + score.path("display").asString(score.path("reason").path("text").asString("")));
      }
    }
    assertThat(seen)
        .containsExactly(
            "tegner-level 6.0",
            "tegner-level-pre-injury 9.0",
            "tegner-level-change -3.0", // Q28
            "tegner-level 7.0",
            "tegner-level-change 1 of 2 answered, 2 needed");
  }

  @Test
  void recorded_sheets_decide_as_posted_ones_do(@TempDir Path folder) {
    try (Store store = Store.open(StoreSettings.inFolder(folder))) {
      ReadinessService service = ReadinessService.of(CONTRACT, store, OneVisit.CLOCK);
      service.cases().put("local", "knee", OneVisit.kneeCase(), Optional.empty());
      record(service, OneVisit.battery(15, Q17));
      JsonNode record = record(service, OneVisit.battery(22, ONE_MISSING));
      assertThat(record.at("/scores/0/reason/text").asString())
          .isEqualTo("13 of 14 answered, 14 needed");
      assertThat(CONTRACT.validate("battery-record", record)).isEmpty();
      assertThat(decided(service).at("/reason/code").asString()).isEqualTo("not-scorable");
      record(service, OneVisit.battery(24, Q17));
      JsonNode met = decided(service);
      assertThat(met.path("outcome").asString()).isEqualTo("met");
      assertThat(met.at("/inputs/0/questionnaire/answered").asInt()).isEqualTo(14);
    }
  }

  private static JsonNode record(ReadinessService service, String battery) {
    Recorded recorded =
        service.batteries().add("local", "knee", OneVisit.json(battery), Optional.empty());
    return OneVisit.json(recorded.document().bytes());
  }

  private static JsonNode decided(ReadinessService service) {
    JsonNode request =
        OneVisit.json(
            """
            {"schemaVersion": "1.0", "asOf": "2026-10-01",
             "criteriaSet": {"id": "adams-2012-progression-entry", "version": "1"}}""");
    Recorded decision = service.decisions().decide("local", "knee", request, Optional.empty());
    return survey(OneVisit.json(decision.document().bytes()));
  }

  @Test
  void sheet_of_a_measure_says_how_its_instrument_is_answered() {
    JsonNode sheet = OneVisit.json(DESK.measure("koos-pain").bytes());
    assertThat(sheet.path("instrument").path("code").asString()).isEqualTo("koos");
    assertThat(sheet.path("instrument").path("items")).hasSize(42);
    assertThat(sheet.path("citations").valueStream().map(one -> one.path("key").asString()))
        .contains("koos-scoring-2012", "ingelsrud-2018");
  }

  private static String sheet(String instrument, String answers) {
    return "{\"instrument\": \"%s\", \"responses\": %s}"
        .formatted(instrument, OneVisit.responses(answers));
  }

  private static JsonNode assess(String... batteries) {
    return OneVisit.json(DESK.assess(OneVisit.request(SET, batteries)).bytes());
  }

  private static JsonNode finding(JsonNode answer) {
    return survey(answer.path("decisions").path(0));
  }

  /** The finding on the survey of daily living. */
  private static JsonNode survey(JsonNode decision) {
    return decision
        .at("/finding/of")
        .valueStream()
        .filter(finding -> finding.path("id").asString().equals("kos-adls"))
        .findFirst()
        .orElseThrow();
  }
}

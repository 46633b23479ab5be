package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.Contract;
import evenside.schemas.Fault;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What the desk finds wrong with a questionnaire, and the limit it names. The sheets are invented,
 * with one fault each; Q17 and Q24 are worked cases, arithmetic by hand; the limits are those of
 * the published instruments.
 */
class SheetFaultsTest {
  private static final Desk DESK = OneVisit.desk(Contract.published());

  /** Name, the sheet, where below it, code, limit. */
  static Stream<Arguments> sheet_has_one_fault() {
    return Stream.of(
        Arguments.of(
            "an instrument nobody knows",
            "{'instrument': 'no-such', 'scores': [{'measure': 'lefs', 'score': 1}]}",
            "/instrument instrument.unknown",
            "acl-rsi, acl-rsi-6, global-rating, ikdc-subjective, k-ses18, koos, kos-adls, lefs,"
                + " lysholm, tegner, tsk-11"),
        Arguments.of(
            "an item the form does not have",
            "{'instrument': 'tegner', 'responses': [{'item': '1', 'answer': 9}, {'item': '3',"
                + " 'answer': 4}]}",
            "/responses/1/item item.unknown",
            "1, 2"),
        Arguments.of(
            "Q24: twelve points for item 3 of the Lysholm score",
            "{'instrument': 'lysholm', 'responses': "
                + OneVisit.responses("5 5 12 20 25 10 6 4")
                + "}",
            "/responses/2/answer answer.not-allowed",
            "15, 10, 6, 2, 0"),
        Arguments.of(
            "half a level",
            "{'instrument': 'tegner', 'responses': [{'item': '1', 'answer': 6.5}]}",
            "/responses/0/answer answer.not-allowed",
            "0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10"),
        Arguments.of(
            "a fear item below its smallest answer",
            "{'instrument': 'tsk-11', 'responses': "
                + OneVisit.responses("0 1 1 1 1 1 1 1 1 1 1")
                + "}",
            "/responses/0/answer answer.not-allowed",
            "1, 2, 3, 4"),
        Arguments.of(
            "one item answered twice",
            "{'instrument': 'tegner', 'responses': [{'item': '2', 'answer': 6}, {'item': '2',"
                + " 'answer': 6}]}",
            "/responses/1/item item.duplicate",
            "one answer for each of 2 items"),
        Arguments.of(
            "only the item that is never scored",
            "{'instrument': 'ikdc-subjective', 'responses': [{'item': '10a', 'answer': 9}]}",
            "/responses answers.none-scored",
            ""),
        Arguments.of(
            "a rule for missing items of another instrument",
            "{'instrument': 'lefs', 'missingRule': 'koos-2012', 'scores': [{'measure': 'lefs',"
                + " 'score': 69}]}",
            "/missingRule missing-rule.unknown",
            "all-items"),
        Arguments.of(
            "a score of another instrument",
            "{'instrument': 'acl-rsi-6', 'scores': [{'measure': 'acl-rsi', 'score': 70}]}",
            "/scores/0/measure score.not-of-instrument",
            "acl-rsi-6"),
        Arguments.of(
            "a total of all KOOS items",
            "{'instrument': 'koos', 'scores': [{'measure': 'koos', 'score': 70}]}",
            "/scores/0/measure score.not-of-instrument",
            "koos-daily-living, koos-pain, koos-quality-of-life, koos-sport-recreation,"
                + " koos-symptoms"),
        Arguments.of(
            "the LEFS as a percentage",
            "{'instrument': 'lefs', 'scores': [{'measure': 'lefs', 'score': 86.3}]}",
            "/scores/0/score value.implausible",
            "0 to 80"),
        Arguments.of(
            "one score reported twice",
            "{'instrument': 'lefs', 'scores': [{'measure': 'lefs', 'score': 69}, {'measure':"
                + " 'lefs', 'score': 69}]}",
            "/scores/1 result.duplicate",
            ""),
        Arguments.of(
            "Q17's answers with another score",
            "{'instrument': 'kos-adls', 'responses': "
                + OneVisit.responses("5 5 4 5 5 5 5 4 4 5 4 5 4 3")
                + ", 'scores': [{'measure': 'kos-adls', 'score': 90.1}]}",
            "/scores/0/score score.mismatch",
            "90.0"),
        Arguments.of(
            "a score that these answers cannot give",
            "{'instrument': 'kos-adls', 'responses': "
                + OneVisit.responses("5 5 4 5 5 5 5 4 4 5 4 5 4 -")
                + ", 'scores': [{'measure': 'kos-adls', 'score': 92.3}]}",
            "/scores/0/score score.mismatch",
            "13 of 14 answered, 14 needed"));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource
  void sheet_has_one_fault(String name, String sheet, String placeAndCode, String limit) {
    List<Fault> faults = faults(sheet.replace('\'', '"'));
    assertThat(OneVisit.placesAndCodes(faults))
        .as(name)
        .containsExactly("#/results/questionnaire/0" + placeAndCode);
    assertThat(faults.get(0).limit().orElse("")).isEqualTo(limit);
  }

  @Test
  void instrument_that_is_there_twice_is_a_duplicate() {
    String sheet =
        "{\"instrument\": \"lefs\", \"scores\": [{\"measure\": \"lefs\", \"score\": 69}]}";
    assertThat(OneVisit.placesAndCodes(faults(sheet + "," + sheet)))
        .containsExactly("#/results/questionnaire/1 result.duplicate");
  }

  @Test
  void all_faults_come_at_once_and_none_stands_on_a_wrong_type() {
    String sheet =
        """
        {"instrument": "tegner", "missingRule": "half", "responses": [{"item": "7", "answer": 3},
          {"item": "1", "answer": "9"}, {"item": "2", "answer": 11}],
         "scores": [{"measure": "tegner-level", "score": "6"}, {"measure": "lefs", "score": 6}]}""";
    assertThat(OneVisit.placesAndCodes(faults(sheet)))
        .containsExactly(
            "#/results/questionnaire/0/missingRule missing-rule.unknown",
            "#/results/questionnaire/0/responses/0/item item.unknown",
            "#/results/questionnaire/0/responses/1/answer type.wrong",
            "#/results/questionnaire/0/responses/2/answer answer.not-allowed",
            "#/results/questionnaire/0/scores/0/score type.wrong",
            "#/results/questionnaire/0/scores/1/measure score.not-of-instrument");
  }

  @Test
  void score_that_agrees_and_answers_in_the_other_coding_are_accepted() {
    String printed =
        "{\"instrument\": \"ikdc-subjective\", \"responses\": [%s], \"scores\": [{\"measure\":"
            + " \"ikdc-subjective\", \"score\": 83.9}]}";
    String scored = printed.replace("\"responses\"", "\"coding\": \"scored\", \"responses\"");
    assertThat(faults(printed.formatted(ikdc(2, 1)))).isEmpty();
    assertThat(faults(scored.formatted(ikdc(8, 9)))).isEmpty();
    assertThat(OneVisit.placesAndCodes(faults(scored.formatted(ikdc(2, 1)))))
        .containsExactly("#/results/questionnaire/0/scores/0/score score.mismatch");
  }

  /** Q1 with the given answers to items 2 and 3. */
  private static String ikdc(int two, int three) {
    String[] items = "1 2 3 4 5 6 7 8 9a 9b 9c 9d 9e 9f 9g 9h 9i 10b".split(" ");
    int[] answers = {3, two, three, 3, 3, 1, 4, 3, 4, 4, 3, 3, 4, 4, 3, 3, 3, 8};
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < items.length; i++) {
      text.append(i == 0 ? "" : ",")
          .append("{\"item\": \"%s\", \"answer\": %d}".formatted(items[i], answers[i]));
    }
    return text.toString();
  }

  /** The flags: locking (item 3) from 2 points down, giving way (item 4) from 10 down. */
  @Test
  void answer_worth_a_look_is_a_warning_and_no_fault() {
    String sheet =
        "{\"instrument\": \"lysholm\", \"responses\": %s}"
            .formatted(OneVisit.responses("5 5 2 10 25 10 6 4"));
    CheckReport report = DESK.check("battery", OneVisit.json(OneVisit.battery(22, sheet)));
    assertThat(report.valid()).isTrue();
    assertThat(OneVisit.placesAndCodes(report.warnings()))
        .containsExactly(
            "#/results/questionnaire/0/responses/2/answer answer.flagged",
            "#/results/questionnaire/0/responses/3/answer answer.flagged");
    String calm = sheet.replace("\"answer\": 2}", "\"answer\": 6}").replace(": 10}", ": 15}");
    assertThat(calm).isNotEqualTo(sheet);
    assertThat(DESK.check("battery", OneVisit.json(OneVisit.battery(22, calm))).faults())
        .extracting(Fault::code)
        .containsExactly("answer.not-allowed"); // item 6 has no 15
  }

  private static List<Fault> faults(String sheets) {
    return DESK.check("battery", OneVisit.json(OneVisit.battery(22, sheets))).faults();
  }
}

package evenside.progression;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.flags;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.run;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

/**
 * The evidence's table of 24 rules, row by row: a convention of our own, made from published rules
 * and common practice, with no other source for the table as a whole. Each row changes a clean
 * session and its clean morning, after three clean ones, in one respect.
 */
class RuleTableTest {
  private static final String SET = "running-eight-levels";
  private static final LocalDate DAY = DAY_0.plusDays(7);

  private static Arguments row(
      String rule,
      String outcome,
      int level,
      int daysToNext,
      BiConsumer<ObjectNode, ObjectNode> c) {
    return arguments(rule, outcome, level, daysToNext, c);
  }

  /** Rule, outcome, next level from 4, days to the next session, what is changed. */
  static Stream<Arguments> rows() {
    return Stream.of(
        row("RF-YES", "hold", 4, 2, yes("calfPain")),
        row("RF-YES", "hold", 4, 2, yes("calfSwelling")),
        row("RF-YES", "hold", 4, 2, yes("veinTenderness")),
        row("RF-YES", "hold", 4, 2, yes("hotKnee")),
        row("RF-YES", "hold", 4, 2, yes("popOrTwist")),
        row("SO-1", "step-back", 3, 3, (s, m) -> soreness(s).put("warmUp", "continued")),
        row("SO-2", "step-back", 3, 3, (s, m) -> soreness(s).put("warmUp", "returned")),
        row("SO-3", "repeat-after-rest", 4, 2, (s, m) -> soreness(s).put("afterOneHour", true)),
        row("SO-3", "repeat-after-rest", 4, 2, (s, m) -> soreness(m).put("nextDay", true)),
        row("SO-4", "hold", 4, 2, (s, m) -> soreness(s).put("warmUp", "gone")),
        row("EF-1", "step-back", 3, 2, (s, m) -> effusion(m).put("nextMorning", "trace")),
        row("EF-2", "hold", 4, 2, (s, m) -> effusion(s).put("after", "trace")),
        row("EF-3", "hold", 4, 2, RuleTableTest::stableOnePlus),
        row("EF-4", "step-back", 3, 2, RuleTableTest::stableTwoPlus),
        row("PN-1", "step-back", 3, 2, (s, m) -> pain(s).put("worst", 6)),
        row("PN-2", "step-back", 3, 2, (s, m) -> pain(m).put("nextMorning", 2)),
        row("PN-3", "hold", 4, 2, (s, m) -> pain(s).put("worst", 3)),
        row("PN-3", "hold", 4, 2, (s, m) -> pain(s).put("worst", 5)),
        row("DO-1", "hold", 4, 2, (s, m) -> done(s).put("value", 19)),
        row("DT-1", "insufficient-data", 4, 2, (s, m) -> pain(m).remove("nextMorning")),
        row("DT-1", "insufficient-data", 4, 2, RuleTableTest::notGraded),
        row("OK-1", "advance", 5, 2, (s, m) -> {}),
        row("OK-1", "advance", 5, 2, (s, m) -> pain(s).put("worst", 2)));
  }

  /** Every row of red flags: which answer, which rule, how soon. */
  static Stream<Arguments> stops() {
    return Stream.of(
        stop("RF-DVT", "same-day", yes("calfPain", "calfSwelling")),
        stop("RF-DVT", "same-day", yes("calfPittingOedema")),
        stop("RF-DVT", "same-day", yes("veinTenderness", "calfSwelling")),
        stop("RF-PE", "emergency", yes("chestPain")),
        stop("RF-PE", "emergency", yes("breathlessness")),
        stop("RF-PE", "emergency", yes("coughingBlood")),
        stop("RF-SEPSIS", "same-day", yes("fever")),
        stop("RF-SEPSIS", "same-day", yes("woundDischarge")),
        stop("RF-SEPSIS", "same-day", (s, m) -> temperature(m, 38.0)),
        stop("RF-SEPSIS", "same-day", yes("hotKnee").andThen(RuleTableTest::trace)),
        stop("RF-GIVE", "within-48-hours", yes("givingWay")),
        stop("RF-LOCK", "within-48-hours", yes("locking")),
        stop("RF-LOCK", "within-48-hours", (s, m) -> extensionLoss(s, 5)),
        stop("RF-EFF", "within-48-hours", (s, m) -> effusion(s).put("after", "1+")),
        stop("RF-EFF", "within-48-hours", (s, m) -> effusion(m).put("nextMorning", "2+")),
        stop("RF-TRAUMA", "same-day", yes("popOrTwist").andThen(RuleTableTest::trace)),
        stop("RF-NEURO", "emergency", yes("numbness")),
        stop("RF-NEURO", "emergency", yes("footColourChange")),
        stop("RF-PAIN", "within-48-hours", yes("nightPain")),
        stop("RF-PAIN", "within-48-hours", (s, m) -> pain(s).put("atRest", 6)));
  }

  private static Arguments stop(
      String rule, String urgency, BiConsumer<ObjectNode, ObjectNode> change) {
    return arguments(rule, urgency, change);
  }

  private static BiConsumer<ObjectNode, ObjectNode> yes(String... questions) {
    return (s, m) -> {
      for (String question : questions) {
        flags(s).put(question, "yes");
      }
    };
  }

  private static ObjectNode soreness(ObjectNode json) {
    return response(json).withObject("/soreness");
  }

  private static ObjectNode effusion(ObjectNode json) {
    return response(json).withObject("/effusion");
  }

  private static ObjectNode pain(ObjectNode json) {
    return response(json).withObject("/pain");
  }

  private static ObjectNode done(ObjectNode json) {
    return json.withObject("/entry/training/work/running/0/completed/runTime");
  }

  private static void trace(ObjectNode session, ObjectNode morning) {
    effusion(session).put("after", "trace");
    effusion(morning).put("nextMorning", "trace");
  }

  private static void temperature(ObjectNode json, double celsius) {
    flags(json).withObject("/bodyTemperature").put("value", celsius).put("unit", "Cel");
  }

  private static void extensionLoss(ObjectNode json, double degrees) {
    response(json).withObject("/extensionLoss").put("value", degrees).put("unit", "deg");
  }

  /** A knee that always has this grade: the stable grade is what is usual. */
  private static void stable(ObjectNode session, ObjectNode morning, String grade) {
    effusion(session).put("usual", grade).put("before", grade).put("after", grade);
    effusion(morning).put("nextMorning", grade);
  }

  private static void stableOnePlus(ObjectNode session, ObjectNode morning) {
    stable(session, morning, "1+");
  }

  private static void stableTwoPlus(ObjectNode session, ObjectNode morning) {
    stable(session, morning, "2+");
  }

  private static void notGraded(ObjectNode session, ObjectNode morning) {
    effusion(session).remove("after");
    effusion(morning).remove("nextMorning");
  }

  /** Three clean sessions of level 4, then the changed one; a stable grade needs no clean ones. */
  private static List<ObjectNode> entries(
      BiConsumer<ObjectNode, ObjectNode> change, boolean alone) {
    List<ObjectNode> entries = new ArrayList<>();
    for (int day = alone ? 7 : 1; day < 7; day += 2) {
      entries.add(run(DAY_0.plusDays(day), 4));
      entries.add(morning(DAY_0.plusDays(day)));
    }
    ObjectNode session = run(DAY, 4);
    ObjectNode morning = morning(DAY);
    change.accept(session, morning);
    entries.add(session);
    entries.add(morning);
    return entries;
  }

  @ParameterizedTest
  @MethodSource("rows")
  void row_of_the_table_holds(
      String rule, String outcome, int level, int days, BiConsumer<ObjectNode, ObjectNode> change) {
    boolean alone = rule.equals("EF-3") || rule.equals("EF-4");
    Advice.Work work = Book.advice(entries(change, alone)).work(SET).orElseThrow();
    assertThat(Book.rules(work, "acl-progression")).contains(rule);
    assertThat(work.outcome().code()).isEqualTo(outcome);
    assertThat(work.next().level()).isEqualTo(level);
    assertThat(work.next().earliestOn()).isEqualTo(DAY.plusDays(days));
    Hit hit =
        work.reasons().stream()
            .filter(one -> one.rule().id().equals(rule))
            .findFirst()
            .orElseThrow();
    assertThat(hit.progression().name()).isEqualTo("acl-progression/0.1");
    assertThat(hit.inputs()).isNotEmpty().allSatisfy(in -> assertThat(in.sessions()).isNotEmpty());
  }

  @ParameterizedTest
  @MethodSource("stops")
  void red_flag_stops_everything(
      String rule, String urgency, BiConsumer<ObjectNode, ObjectNode> change) {
    Advice advice = Book.advice(entries(change, false));
    assertThat(advice.outcome()).isEqualTo(Outcome.STOP_AND_REFER);
    assertThat(advice.standing()).extracting(hit -> hit.rule().id()).contains(rule);
    assertThat(advice.urgency().orElseThrow().code()).isEqualTo(urgency);
    assertThat(advice.work(SET).orElseThrow().next()).isNull();
    assertThat(advice.message()).containsIgnoringCase("contact the clinic");
  }

  /** PN-4: the mean of the worst pains rises two weeks in a row, though each stays in the green. */
  @Test
  void pain_rising_two_weeks_in_a_row_is_held() {
    List<ObjectNode> entries = new ArrayList<>();
    for (int week = 0; week < 3; week++) {
      LocalDate day = DAY_0.plusDays(7L * week);
      ObjectNode session = run(day, 4);
      pain(session).put("worst", week);
      entries.add(session);
      entries.add(morning(day));
    }
    Advice.Work work = Book.advice(entries).work(SET).orElseThrow();
    assertThat(Book.rules(work, "acl-progression")).contains("PN-4", "OK-1");
    assertThat(work.outcome()).isEqualTo(Outcome.HOLD);
  }

  @Test
  void every_rule_of_the_table_has_a_row() {
    Set<String> tried = new TreeSet<>(Set.of("PN-4", "FR-1", "CL-1"));
    Stream.concat(rows(), stops()).forEach(row -> tried.add((String) row.get()[0]));
    assertThat(tried)
        .containsExactlyElementsOf(
            Book.set("acl-progression").rules().stream()
                .map(Rule::id)
                .collect(Collectors.toCollection(TreeSet::new)));
  }

  /**
   * T21 of the evidence (worked out there): pain 5 during, 0 the next morning, effusion unchanged
   * is held; 5, and 3 the next morning against a usual 0, is a step back.
   */
  @Test
  void worked_example_21() {
    Advice held = Book.advice(entries((s, m) -> pain(s).put("worst", 5), false));
    assertThat(held.work(SET).orElseThrow().outcome()).isEqualTo(Outcome.HOLD);
    Advice back =
        Book.advice(
            entries(
                (s, m) -> {
                  pain(s).put("worst", 5);
                  pain(m).put("nextMorning", 3);
                },
                false));
    assertThat(back.work(SET).orElseThrow().outcome()).isEqualTo(Outcome.STEP_BACK);
  }
}

package evenside.progression;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.flags;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.criteria.Truth;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.FieldSource;
import tools.jackson.databind.node.ObjectNode;

/** What is not known is neither good nor bad: no step up, and no step back, before it is known. */
class UncertaintyTest {
  private static final String SET = "running-eight-levels";

  private static Advice.Work work(ObjectNode... entries) {
    return Book.advice(List.of(entries)).work(SET).orElseThrow();
  }

  @Test
  void no_step_up_before_the_next_morning() {
    Advice.Work work = work(run(DAY_0, 1));
    assertThat(work.outcome()).isEqualTo(Outcome.INSUFFICIENT_DATA);
    assertThat(work.next().level()).isEqualTo(1);
    assertThat(work.unanswered())
        .extracting(Unanswered::input)
        .contains("pain-next-morning-above-usual", "knee-sore-next-day");
    assertThat(work(run(DAY_0, 1), morning(DAY_0)).outcome()).isEqualTo(Outcome.ADVANCE);
  }

  /** Own rule, no source: each of the service’s questions, left out or not known. */
  @ParameterizedTest
  @FieldSource("evenside.training.Diary#QUESTIONS")
  void unanswered_red_flag_is_not_no(String question) {
    for (boolean asked : List.of(true, false)) {
      ObjectNode session = run(DAY_0, 1);
      if (asked) {
        flags(session).put(question, "unknown");
      } else {
        flags(session).remove(question);
      }
      Advice advice = Book.advice(List.of(session, morning(DAY_0)));
      assertThat(advice.outcome()).isEqualTo(Outcome.INSUFFICIENT_DATA);
      assertThat(advice.redFlagsComplete()).isFalse();
      assertThat(advice.standing()).isEmpty();
      assertThat(advice.unanswered()).anyMatch(one -> code(question).equals(one.input()));
    }
  }

  private static String code(String member) {
    return member.replaceAll("([A-Z])", "-$1").toLowerCase(java.util.Locale.ROOT);
  }

  /**
   * The usual pain is at least 0: a morning of 1 is at most 1 above it, a morning of 2 may be 2.
   */
  @Test
  void unknown_usual_pain_is_not_taken_for_zero() {
    Advice.Work one = work(run(DAY_0, 1), with(morning(DAY_0), m -> pain(m).put("nextMorning", 1)));
    assertThat(one.outcome()).isEqualTo(Outcome.ADVANCE);
    Advice.Work two = work(run(DAY_0, 1), with(morning(DAY_0), m -> pain(m).put("nextMorning", 2)));
    assertThat(two.outcome()).isEqualTo(Outcome.INSUFFICIENT_DATA);
    assertThat(two.unanswered())
        .extracting(Unanswered::input)
        .contains("pain-next-morning-above-usual");
  }

  private static ObjectNode pain(ObjectNode json) {
    return response(json).withObject("/pain");
  }

  @Test
  void sore_muscle_is_no_sore_knee() {
    ObjectNode morning =
        with(
            morning(DAY_0),
            m -> {
              ObjectNode soreness = response(m).withObject("/soreness").put("nextDay", true);
              soreness.putArray("sites").add("muscle");
            });
    assertThat(work(run(DAY_0, 1), morning).outcome()).isEqualTo(Outcome.ADVANCE);
    response(morning).withArray("/soreness/sites").add("graft-site");
    assertThat(work(run(DAY_0, 1), morning).outcome()).isEqualTo(Outcome.REPEAT_AFTER_REST);
  }

  /** A place that is not stated counts as the knee: the cautious reading. */
  @Test
  void soreness_without_a_place_counts_as_of_the_knee() {
    ObjectNode morning =
        with(morning(DAY_0), m -> response(m).withObject("/soreness").put("nextDay", true));
    assertThat(work(run(DAY_0, 1), morning).outcome()).isEqualTo(Outcome.REPEAT_AFTER_REST);
  }

  @Test
  void own_impression_of_swelling_is_no_grade() {
    ObjectNode session =
        with(run(DAY_0, 1), s -> response(s).withObject("/effusion").remove("after"));
    ObjectNode morning =
        with(
            morning(DAY_0),
            m -> {
              response(m).withObject("/effusion").remove("nextMorning");
              response(m).put("swollenNextMorning", false);
            });
    assertThat(work(session, morning).outcome()).isEqualTo(Outcome.INSUFFICIENT_DATA);
  }

  @Test
  void grade_by_another_method_is_held_against_no_rule() {
    ObjectNode session =
        with(
            run(DAY_0, 1),
            s -> response(s).withObject("/effusion").put("method", "other").put("after", "3+"));
    ObjectNode morning =
        with(morning(DAY_0), m -> response(m).withObject("/effusion").put("method", "other"));
    Advice advice = Book.advice(List.of(session, morning));
    assertThat(advice.outcome()).isEqualTo(Outcome.INSUFFICIENT_DATA);
    assertThat(advice.standing()).isEmpty();
  }

  @Test
  void dose_not_planned_is_not_completed() {
    ObjectNode session =
        with(run(DAY_0, 1), s -> s.withObject("/entry/training/work/running/0").remove("planned"));
    assertThat(work(session, morning(DAY_0)).outcome()).isEqualTo(Outcome.INSUFFICIENT_DATA);
  }

  /** Of two statements about one thing the worse holds, in whatever order they came. */
  @Test
  void later_better_answer_does_not_undo_a_worse_one() {
    ObjectNode sore = with(morning(DAY_0), m -> pain(m).put("nextMorning", 6));
    ObjectNode better =
        with(
            morning(DAY_0), m -> m.put("recordId", "b").put("performedAt", "2026-03-03T09:00:00Z"));
    assertThat(work(run(DAY_0, 2), sore, better).outcome()).isEqualTo(Outcome.INSUFFICIENT_DATA);
  }

  /** All numbers of the range, none, or some; by hand, the ranges invented. */
  @ParameterizedTest
  @CsvSource({
    "=, 1, 1, 1, MET", "=, 0, 2, 1, UNDETERMINED", "=, 2, 3, 1, NOT_MET",
    "!=, 1, 1, 1, NOT_MET", "!=, 0, 2, 1, UNDETERMINED", "!=, 2, 3, 1, MET",
    ">, 1, 2, 1, UNDETERMINED", ">, 2, 3, 1, MET", ">, 0, 1, 1, NOT_MET",
    ">=, 1, 2, 1, MET", ">=, 0, 1, 1, UNDETERMINED", ">=, 0, 0.5, 1, NOT_MET",
    "<, 0, 1, 1, UNDETERMINED", "<, 0, 0.5, 1, MET", "<, 1, 2, 1, NOT_MET",
    "<=, 0, 1, 1, MET", "<=, 1, 2, 1, UNDETERMINED", "<=, 2, 3, 1, NOT_MET"
  })
  void range_is_compared_whole(String comparison, double low, double high, double bound, Truth t) {
    Known.Range range = new Known.Range(low, high);
    assertThat(Known.Comparison.of(comparison).test(range, bound)).isEqualTo(t);
  }
}

package evenside.progression;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.check;
import static evenside.training.Diary.clearance;
import static evenside.training.Diary.flags;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** A stop holds until a clinician's clearance names what called for it; no software ends one. */
class ClearanceTest {
  private static final LocalDate FLAG_DAY = DAY_0.plusDays(4);

  private static Advice advice(ObjectNode... entries) {
    return Book.advice(Arrays.asList(entries));
  }

  private static ObjectNode calf(LocalDate day) {
    return with(run(day, 2), s -> flags(s).put("calfPain", "yes").put("calfSwelling", "yes"));
  }

  @Test
  void stop_holds_however_clean_what_follows_is() {
    List<ObjectNode> entries = new ArrayList<>(List.of(calf(DAY_0), morning(DAY_0)));
    for (int day = 2; day < 80; day += 2) {
      entries.add(run(DAY_0.plusDays(day), 2));
      entries.add(morning(DAY_0.plusDays(day)));
    }
    Advice advice = Book.advice(entries);
    assertThat(advice.outcome()).isEqualTo(Outcome.STOP_AND_REFER);
    assertThat(advice.work()).allMatch(work -> work.outcome() == Outcome.STOP_AND_REFER);
    assertThat(advice.urgency()).contains(Rule.Urgency.SAME_DAY);
  }

  @Test
  void clearance_ends_the_stop_and_the_same_level_comes_first() {
    String at = FLAG_DAY.plusDays(2) + "T10:00:00+01:00";
    Advice advice =
        advice(calf(FLAG_DAY), morning(FLAG_DAY), clearance("c-1", at, "run-" + FLAG_DAY));
    assertThat(advice.standing()).isEmpty();
    Advice.Work work = advice.work().get(0);
    assertThat(work.outcome()).isEqualTo(Outcome.HOLD);
    assertThat(Book.rules(work, "acl-progression")).contains("CL-1");
    assertThat(work.next().level()).isEqualTo(2);
  }

  @Test
  void clearance_of_another_entry_ends_nothing() {
    String at = FLAG_DAY.plusDays(2) + "T10:00:00+01:00";
    Advice advice = advice(run(DAY_0, 1), calf(FLAG_DAY), clearance("c-1", at, "run-" + DAY_0));
    assertThat(advice.outcome()).isEqualTo(Outcome.STOP_AND_REFER);
  }

  @Test
  void clearance_before_the_entry_ends_nothing() {
    Advice advice =
        advice(calf(FLAG_DAY), clearance("c-1", DAY_0 + "T10:00:00+01:00", "run-" + FLAG_DAY));
    assertThat(advice.outcome()).isEqualTo(Outcome.STOP_AND_REFER);
  }

  @Test
  void answer_after_the_clearance_stands_again() {
    ObjectNode later =
        with(
            morning(FLAG_DAY),
            m -> {
              m.put("recordId", "later");
              m.put("performedAt", FLAG_DAY.plusDays(1) + "T20:00:00+01:00");
              flags(m).put("calfPittingOedema", "yes");
            });
    Advice advice =
        advice(
            calf(FLAG_DAY),
            morning(FLAG_DAY),
            clearance("c-1", FLAG_DAY.plusDays(1) + "T10:00:00+01:00", "run-" + FLAG_DAY),
            later);
    assertThat(advice.outcome()).isEqualTo(Outcome.STOP_AND_REFER);
  }

  /** The morning after brings nothing new: what was cleared stays cleared. */
  @Test
  void quiet_answer_after_the_clearance_changes_nothing() {
    Advice advice =
        advice(
            calf(FLAG_DAY),
            clearance("c-1", FLAG_DAY + "T20:00:00+01:00", "run-" + FLAG_DAY),
            morning(FLAG_DAY));
    assertThat(advice.standing()).isEmpty();
  }

  @Test
  void swelling_of_two_grades_is_cleared_like_an_answer() {
    ObjectNode swollen =
        with(run(FLAG_DAY, 2), s -> response(s).withObject("/effusion").put("after", "1+"));
    assertThat(advice(swollen).outcome()).isEqualTo(Outcome.STOP_AND_REFER);
    ObjectNode cleared =
        clearance("c-1", FLAG_DAY.plusDays(1) + "T10:00:00+01:00", "run-" + FLAG_DAY);
    assertThat(advice(swollen, cleared).standing()).isEmpty();
  }

  @Test
  void look_at_the_knee_on_a_day_of_rest_stops_too() {
    ObjectNode evening =
        with(
            check("evening", FLAG_DAY + "T20:00:00+01:00"),
            c -> flags(c).put("calfPain", "yes").put("calfSwelling", "yes"));
    Advice advice = advice(run(DAY_0, 1), morning(DAY_0), evening);
    assertThat(advice.outcome()).isEqualTo(Outcome.STOP_AND_REFER);
    assertThat(advice.standing()).extracting(Hit::session).containsExactly("id-evening");
  }

  @Test
  void words_of_a_stop_name_no_disease() {
    for (Rule rule : Book.set("acl-progression").rules()) {
      if (rule.outcome() == Outcome.STOP_AND_REFER) {
        assertThat(rule.text())
            .containsIgnoringCase("contact the clinic")
            .doesNotContainIgnoringCase("thrombosis")
            .doesNotContainIgnoringCase("embol")
            .doesNotContainIgnoringCase("infect")
            .doesNotContainIgnoringCase("sepsis")
            .doesNotContainIgnoringCase("rupture")
            .doesNotContainIgnoringCase("tear");
        assertThat(rule.urgency()).isNotNull();
      }
    }
  }
}

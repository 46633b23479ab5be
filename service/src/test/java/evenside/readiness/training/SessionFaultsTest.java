package evenside.readiness.training;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.clearance;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.rest;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.Fault;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Entries of the training record that are refused, or taken and pointed out. */
class SessionFaultsTest extends TrainingRecord {
  /** The case was operated on 17 November 2025. */
  @Test
  void entry_before_the_surgery_is_refused() {
    assertThat(refused(run(LocalDate.parse("2025-11-16"), 1)))
        .extracting(Fault::code)
        .containsExactly("date.before-surgery");
    post(run(LocalDate.parse("2025-11-17"), 1));
  }

  /** The five faults that the task names, and more, in one document. */
  @Test
  void all_faults_are_told_at_once() {
    ObjectNode json = run(DAY_0, 5);
    json.withObject("/entry/training/work/running/0/progression").put("levelBefore", 2);
    json.withObject("/entry/training").put("effort", 11);
    response(json).withObject("/effusion").put("after", "4+");
    response(json).put("nextMorningAt", "2026-03-01T07:00:00+01:00");
    ObjectNode drill = json.withObject("/entry/training/work").putArray("drills").addObject();
    drill.put("drill", "single-leg-hop").putObject("completed").put("both", 30);
    json.put("operatedSide", "right");
    assertThat(refused(json))
        .extracting(fault -> fault.pointer() + " " + fault.code())
        .containsExactly(
            "#/entry/training/effort number.above-maximum",
            "#/entry/training/response/effusion/after value.not-allowed",
            "#/entry/training/response/nextMorningAt next-morning.before-session",
            "#/entry/training/work/drills/0/completed side.missing",
            "#/entry/training/work/running/0/progression/level level.skipped",
            "#/operatedSide side.contradicts-case");
  }

  @Test
  void level_that_the_plan_cannot_have_led_to_is_refused() {
    post(run(DAY_0, 1));
    assertThat(refused(run(DAY_0.plusDays(3), 3)))
        .extracting(Fault::code)
        .containsExactly("level.skipped");
    // Two runs in between may still be recorded, so this one is taken and pointed out.
    JsonNode later = post(run(DAY_0.plusDays(4), 3));
    assertThat(later.at("/warnings/0/code").asString()).isEqualTo("level.ahead-of-record");
    assertThat(refused(run(DAY_0.plusDays(3), 1)))
        .extracting(Fault::code)
        .containsExactly("level.skipped");
  }

  @Test
  void next_morning_before_its_session_is_refused_whichever_comes_first() {
    post(run(DAY_0, 1));
    ObjectNode early = with(morning(DAY_0), m -> m.put("performedAt", "2026-03-01T07:00:00+01:00"));
    assertThat(refused(early))
        .extracting(fault -> fault.pointer() + " " + fault.code())
        .containsExactly("#/performedAt next-morning.before-session");
    LocalDate other = DAY_0.plusDays(4);
    JsonNode waiting =
        post(with(morning(other), m -> m.put("performedAt", DAY_0 + "T07:00:00+01:00")));
    assertThat(waiting.at("/warnings/0/code").asString())
        .isIn("session.not-here-yet", "red-flags.unanswered");
    assertThat(refused(run(other, 1)))
        .extracting(Fault::code)
        .containsExactly("next-morning.before-session");
  }

  @Test
  void unknown_references_are_refused_or_pointed_out() {
    String nobody = "00000000-0000-7000-8000-000000000000";
    assertThat(refused(clearance("c", DAY_0 + "T09:00:00+01:00", nobody)))
        .extracting(Fault::code)
        .containsExactly("session.unknown");
    post(rest(DAY_0));
    ObjectNode check =
        with(
            morning(DAY_0),
            m -> m.withObject("/entry/kneeCheck").put("completes", "rest-" + DAY_0));
    assertThat(refused(check)).extracting(Fault::code).containsExactly("session.not-training");
    assertThat(refused(clearance("c", "2026-03-01T09:00:00+01:00", "rest-" + DAY_0)))
        .extracting(Fault::code)
        .containsExactly("clearance.before-entry");
  }

  @Test
  void session_of_another_case_or_clinic_is_not_there() {
    post(run(DAY_0, 1));
    ObjectNode check = with(morning(DAY_0), m -> m.put("recordId", "other"));
    assertThat(post("k-2", check).path("warnings"))
        .anyMatch(warning -> warning.path("code").asString().equals("session.not-here-yet"));
    assertThatThrownBy(() -> service.sessions().advice("nobody", "k-1", AdviceQuestion.TODAY))
        .isInstanceOfSatisfying(
            Refused.class, r -> assertThat(r.refusal()).isEqualTo(Refusal.NOT_FOUND));
    assertThatThrownBy(() -> service.sessions().list("nobody", "k-1", Optional.empty(), 5))
        .isInstanceOf(Refused.class);
  }

  @Test
  void side_of_a_case_with_sessions_cannot_be_turned() {
    post(run(DAY_0, 1));
    JsonNode kept = tree(service.cases().get(clinic, "k-1"));
    ObjectNode turned = (ObjectNode) kept.path("case").deepCopy();
    turned.put("operatedSide", "right");
    String match = service.cases().get(clinic, "k-1").sha256();
    Refused refused =
        catchThrowableOfType(
            Refused.class, () -> service.cases().put(clinic, "k-1", turned, Optional.of(match)));
    assertThat(refused.faults())
        .extracting(Fault::code)
        .containsExactly("side.contradicts-batteries");
  }
}

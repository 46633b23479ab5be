package evenside.intake;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.limb.Side;
import evenside.progression.InputCatalogue;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.training.Diary;
import evenside.training.RedFlags;
import evenside.training.Session;
import java.io.IOException;
import java.io.InputStream;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Entries of a training record: what is read, and what the rules between members find. Those rules
 * are the service's own, no source; levels and plans are those of the published progressions.
 */
class SessionIntakeTest {
  private static final Contract CONTRACT = Contract.published();
  private static final CatalogueReader READER = new CatalogueReader(CONTRACT);
  private static final Intake INTAKE =
      new Intake(
          CONTRACT,
          READER,
          READER.measures(),
          new InstrumentReader(READER.measures()).instruments(CONTRACT));
  private static final Instant NOW = Instant.parse("2026-11-02T12:00:00Z");

  private static Checked check(JsonNode json) {
    return INTAKE.check(
        "session", json, new Intake.Context(NOW, Side.LEFT, name -> Optional.empty()));
  }

  private static List<String> faults(JsonNode json) {
    return check(json).faults().stream().map(f -> f.pointer() + " " + f.code()).toList();
  }

  private static JsonNode example(String name) throws IOException {
    try (InputStream in = SessionIntakeTest.class.getResourceAsStream("/examples/" + name)) {
      return StrictJson.read(in.readAllBytes(), StrictJson.Limits.OWN);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "next-morning",
        "calf-pain-on-a-day-of-rest",
        "rest-days",
        "clearance",
        "first-run",
        "home-week"
      })
  void published_example_is_taken_and_read(String name) throws IOException {
    JsonNode json = example("valid/session/" + name + ".json");
    assertThat(faults(json)).isEmpty();
    Session session = SessionReader.read("id", json);
    assertThat(session.recordId()).contains(json.path("recordId").asString());
  }

  @Test
  void everything_is_read() throws IOException {
    JsonNode json = example("valid/session/everything.json");
    assertThat(faults(json)).isEmpty();
    Session session = SessionReader.read("id", json);
    assertThat(session.training().orElseThrow().running()).hasSize(1);
    assertThat(session.training().orElseThrow().effort()).isEqualTo(4);
  }

  private static ObjectNode item(String family, String member, String code) {
    ObjectNode json = Diary.training("t", Diary.DAY_0);
    Diary.work(json).putArray(family).addObject().put(member, code);
    return json;
  }

  private static ObjectNode first(ObjectNode json, String family) {
    return Diary.work(json).withObject("/" + family + "/0");
  }

  private static ObjectNode lunge(String exercise, String side) {
    ObjectNode json = item("strength", "exercise", exercise);
    first(json, "strength")
        .put("side", side)
        .putObject("completed")
        .putArray("repetitions")
        .add(10);
    return json;
  }

  @ParameterizedTest
  @CsvSource({
    "forward-lunge, left, ''",
    "forward-lunge, both, /entry/training/work/strength/0/side side.missing",
    "no-such-thing, left, /entry/training/work/strength/0/exercise exercise.unknown",
    "prone-plank, both, /entry/training/work/strength/0/exercise exercise.wrong-family",
    "nordic-hamstring-lower, both, ''"
  })
  void exercise_is_of_the_catalogue_and_one_leg_at_a_time(String code, String side, String fault) {
    assertThat(faults(lunge(code, side)))
        .isEqualTo(fault.isEmpty() ? List.of() : List.of("#" + fault));
  }

  private static ObjectNode hop(String drill, int both, int left) {
    ObjectNode json = item("drills", "drill", drill);
    ObjectNode contacts = first(json, "drills").putObject("completed");
    if (both > 0) {
      contacts.put("both", both);
    }
    if (left > 0) {
      contacts.put("left", left);
    }
    return json;
  }

  @ParameterizedTest
  @CsvSource({
    "single-leg-hop, 10, 0, true",
    "single-leg-hop, 10, 5, true",
    "single-leg-hop, 0, 5, false",
    "crossover-hop, 10, 0, true",
    "double-leg-hop, 10, 0, false",
    "shuttle-run, 10, 0, false"
  })
  void single_leg_drill_says_which_foot(String drill, int both, int left, boolean faulty) {
    String fault = "#/entry/training/work/drills/0/completed side.missing";
    assertThat(faults(hop(drill, both, left))).isEqualTo(faulty ? List.of(fault) : List.of());
  }

  private static ObjectNode progression(String set, int level) {
    ObjectNode json = Diary.run(Diary.DAY_0, 1);
    first(json, "running").withObject("/progression").put("id", set).put("level", level);
    first(json, "running").withObject("/progression").remove("version");
    return json;
  }

  @ParameterizedTest
  @CsvSource({
    "running-eight-levels, 8, ''",
    "running-eight-levels, 9, level level.unknown",
    "running-timed-weeks, 15, ''",
    "no-such-plan, 1, id progression.unknown",
    "jumping-stages, 1, id progression.wrong-family",
    "acl-progression, 1, id progression.wrong-family"
  })
  void planned_level_is_of_a_plan_for_this_work(String set, int level, String fault) {
    String at = "#/entry/training/work/running/0/progression/";
    assertThat(faults(progression(set, level)))
        .isEqualTo(fault.isEmpty() ? List.of() : List.of(at + fault));
  }

  @Test
  void plan_of_one_exercise_takes_no_other() {
    ObjectNode json = lunge("forward-lunge", "left");
    first(json, "strength").putObject("progression").put("id", "nordic-hamstring").put("level", 1);
    assertThat(faults(json))
        .containsExactly(
            "#/entry/training/work/strength/0/progression/id progression.wrong-family");
  }

  @ParameterizedTest
  @CsvSource({"3, 2, false", "3, 3, false", "2, 3, false", "4, 2, true", "8, 1, true"})
  void level_goes_up_one_at_a_time(int level, int before, boolean faulty) {
    ObjectNode json = progression("running-eight-levels", level);
    first(json, "running").withObject("/progression").put("levelBefore", before);
    assertThat(faults(json))
        .isEqualTo(
            faulty
                ? List.of("#/entry/training/work/running/0/progression/level level.skipped")
                : List.of());
  }

  @ParameterizedTest
  @CsvSource({
    "2026-03-03T07:00:00+01:00, ''",
    "2026-03-02T23:00:00+01:00, next-morning.before-session",
    "2026-03-02T07:00:00+01:00, next-morning.before-session",
    "2026-12-03T07:00:00+01:00, time.in-future"
  })
  void next_morning_comes_on_a_day_after_and_is_over(String at, String fault) {
    ObjectNode json = Diary.run(Diary.DAY_0, 1);
    Diary.response(json).put("nextMorningAt", at);
    String pointer = "#/entry/training/response/nextMorningAt ";
    assertThat(faults(json)).isEqualTo(fault.isEmpty() ? List.of() : List.of(pointer + fault));
  }

  /** Common practice, no source: nobody can say in the evening how the knee is the next morning. */
  @ParameterizedTest
  @CsvSource({
    "2026-11-02T08:00:00+01:00, true",
    "2026-11-01T23:50:00+01:00, false",
    "2026-11-02T01:00:00+14:00, false",
    "2026-11-02T00:00:00-12:00, true"
  })
  void answers_of_a_morning_that_has_not_come_are_refused(String at, boolean refused) {
    ObjectNode json = Diary.run(Diary.DAY_0, 1).put("performedAt", at);
    Diary.response(json).withObject("/pain").put("nextMorning", 0);
    Diary.response(json).withObject("/soreness").put("nextDay", false);
    Diary.response(json).put("swollenNextMorning", false);
    String in = "#/entry/training/response/";
    String fault = " next-morning.before-session";
    assertThat(faults(json))
        .isEqualTo(
            refused
                ? List.of(
                    in + "pain/nextMorning" + fault,
                    in + "soreness/nextDay" + fault,
                    in + "swollenNextMorning" + fault)
                : List.of());
  }

  /** A day of rest is known once it has come: on the day of the entry at the latest. */
  @Test
  void day_of_rest_after_the_entry_is_refused() {
    ObjectNode rest = Diary.rest(Diary.DAY_0);
    rest.withArray("/entry/restDays").add(Diary.DAY_0.plusDays(1).toString());
    assertThat(faults(rest)).containsExactly("#/entry/restDays/1 date.in-future");
  }

  @Test
  void range_of_repetitions_and_rest_to_come_are_checked() {
    ObjectNode json = lunge("forward-lunge", "left");
    first(json, "strength")
        .putObject("planned")
        .put("sets", 3)
        .put("repetitions", 12)
        .put("repetitionsMost", 10);
    assertThat(faults(json))
        .containsExactly("#/entry/training/work/strength/0/planned/repetitionsMost range.reversed");
    ObjectNode rest = Diary.rest(Diary.DAY_0);
    rest.withArray("/entry/restDays").add("2026-12-24");
    assertThat(faults(rest)).containsExactly("#/entry/restDays/1 date.in-future");
  }

  @Test
  void missing_answers_and_a_missing_therapist_are_pointed_out() {
    ObjectNode json = hop("single-leg-hop", 0, 5);
    json.withObject("/entry/training").put("therapistPresent", false);
    Diary.flags(json).put("fever", "unknown");
    assertThat(check(json).warnings())
        .extracting(Fault::code)
        .containsExactly("red-flags.unanswered", "therapist.not-present");
  }

  /** Sent inline all at once, the later entry is at fault for what does not fit an earlier one. */
  @Test
  void inline_entries_are_held_against_each_other() throws IOException {
    ObjectNode request = (ObjectNode) example("valid/assessment-request/one-battery.json");
    var sessions = request.putArray("sessions");
    sessions.add(Diary.run(Diary.DAY_0.plusDays(3), 4));
    sessions.add(Diary.run(Diary.DAY_0, 1));
    sessions.add(
        Diary.with(
            Diary.morning(Diary.DAY_0), m -> m.put("performedAt", "2026-03-02T07:00:00+01:00")));
    Checked checked =
        INTAKE.check(
            "assessment-request", request, new Intake.Context(NOW, null, name -> Optional.empty()));
    List<String> found =
        checked.faults().stream()
            .filter(fault -> fault.pointer().startsWith("#/sessions"))
            .filter(fault -> !fault.code().startsWith("side."))
            .map(fault -> fault.pointer() + " " + fault.code())
            .toList();
    assertThat(found)
        .containsExactly(
            "#/sessions/0/entry/training/work/running/0/progression/level level.skipped",
            "#/sessions/2/performedAt next-morning.before-session");
  }

  /** The case of the request was operated on a later day than this training. */
  @Test
  void inline_entry_before_the_surgery_is_refused() throws IOException {
    ObjectNode request = (ObjectNode) example("valid/assessment-request/one-battery.json");
    LocalDate surgery = LocalDate.parse(request.at("/case/surgeryDate").asString());
    var sessions = request.putArray("sessions");
    sessions.add(Diary.run(surgery.minusDays(1), 1));
    sessions.add(Diary.run(surgery, 1));
    ObjectNode rest = Diary.entry("rest", surgery + "T20:00:00+01:00");
    rest.withObject("/entry").putArray("restDays").add(surgery.minusDays(2).toString());
    sessions.add(rest);
    Checked checked =
        INTAKE.check(
            "assessment-request", request, new Intake.Context(NOW, null, name -> Optional.empty()));
    assertThat(checked.faults())
        .filteredOn(fault -> fault.code().equals("date.before-surgery"))
        .extracting(Fault::pointer)
        .containsExactly("#/sessions/0/performedAt", "#/sessions/2/entry/restDays/0");
  }

  /** The questions of the schema, of the catalogue and of the reader are the same. */
  @Test
  void warning_questions_are_the_same_everywhere() throws IOException {
    JsonNode schema =
        StrictJson.read(CONTRACT.schema("session"), StrictJson.Limits.OWN)
            .at("/$defs/redFlags/properties");
    Set<String> members =
        schema.propertyNames().stream()
            .filter(name -> !name.equals("bodyTemperature"))
            .map(SessionReader::code)
            .collect(Collectors.toCollection(TreeSet::new));
    InputCatalogue inputs = INTAKE.training().progressions().inputs();
    assertThat(members).containsExactlyInAnyOrderElementsOf(inputs.redFlags());
    JsonNode flag = example("valid/session/calf-pain-on-a-day-of-rest.json");
    RedFlags read =
        ((evenside.training.Entry.KneeCheck) SessionReader.read("id", flag).entry()).redFlags();
    assertThat(read.answers().keySet()).isEqualTo(members);
    assertThat(read.anyYes()).isTrue();
  }
}

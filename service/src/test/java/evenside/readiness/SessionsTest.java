package evenside.readiness;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.check;
import static evenside.training.Diary.clearance;
import static evenside.training.Diary.flags;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.rest;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import evenside.document.Document;
import evenside.load.SdMethod;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.store.Store;
import evenside.store.StoreSettings;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The training record over a real store: an invented runner's eight weeks, entry by entry. */
class SessionsTest {
  private static final Contract CONTRACT = Contract.published();
  private static final String SET = "running-eight-levels";
  private static final int[] DAYS = {0, 2, 4, 9, 11, 16, 18, 23};

  private static Store store;
  private static ReadinessService service;
  private static int clinics;

  private final String clinic = "clinic-" + clinics++;

  @BeforeAll
  static void open(@TempDir Path folder) {
    store = Store.open(StoreSettings.inFolder(folder));
    InstantSource clock = InstantSource.fixed(Instant.parse("2026-11-02T12:00:00Z"));
    service = ReadinessService.of(CONTRACT, store, clock);
  }

  @AfterAll
  static void close() {
    store.close();
  }

  @BeforeEach
  void person() {
    put("k-1");
    put("k-2");
  }

  private void put(String caseId) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("subject", "P-1").put("surgeryDate", "2025-11-17");
    json.put("operatedSide", "left").put("graft", "patellar-tendon").put("otherKnee", "none");
    json.put("sex", "female").put("birthYear", 1999);
    service.cases().put(clinic, caseId, json, Optional.empty());
  }

  private JsonNode post(ObjectNode json) {
    return post("k-1", json);
  }

  private JsonNode post(String caseId, ObjectNode json) {
    return tree(service.sessions().add(clinic, caseId, json, Optional.empty()).document());
  }

  private static JsonNode tree(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }

  private JsonNode advice(String caseId) {
    return tree(service.sessions().advice(clinic, caseId, AdviceQuestion.TODAY));
  }

  private List<Fault> refused(ObjectNode json) {
    return catchThrowableOfType(Refused.class, () -> post(json)).faults();
  }

  /** Levels 1 to 8 on the first days that the published limits allow, all clean. */
  private static List<ObjectNode> eightLevels() {
    List<ObjectNode> entries = new ArrayList<>();
    for (int level = 1; level <= 8; level++) {
      LocalDate day = DAY_0.plusDays(DAYS[level - 1]);
      entries.add(run(day, level));
      entries.add(morning(day));
    }
    return entries;
  }

  /** The case was operated on 17 November 2025. */
  @Test
  void entry_before_the_surgery_is_refused() {
    assertThat(refused(run(LocalDate.parse("2025-11-16"), 1)))
        .extracting(Fault::code)
        .containsExactly("date.before-surgery");
    post(run(LocalDate.parse("2025-11-17"), 1));
  }

  /** The published limits give level 8 on day 23; each reply says so beforehand. */
  @Test
  void clean_history_reaches_level_8_on_day_23() {
    int[] up = {1, 2, 3, 4, 5, 6, 7};
    for (int i : up) {
      LocalDate day = DAY_0.plusDays(DAYS[i - 1]);
      JsonNode evening = post(run(day, i)).path("advice");
      assertThat(evening.path("outcome").asString()).isEqualTo("insufficient-data");
      JsonNode next = post(morning(day)).at("/advice/tracks/0");
      assertThat(next.path("outcome").asString()).isEqualTo("advance");
      assertThat(next.at("/next/level").asInt()).isEqualTo(i + 1);
      assertThat(next.at("/next/earliestOn").asString())
          .isEqualTo(DAY_0.plusDays(DAYS[i]).toString());
    }
    assertThat(DAYS[7]).isEqualTo(23);
  }

  @Test
  void every_reply_and_the_advice_follow_their_schemas() {
    for (ObjectNode entry : eightLevels()) {
      assertThat(CONTRACT.validate("session-record", post(entry))).isEmpty();
    }
    assertThat(CONTRACT.validate("advice", advice("k-1"))).isEmpty();
    assertThat(CONTRACT.validate("advice", advice("k-2"))).isEmpty();
  }

  /** Posted in order, in bulk and out of order: the same final advice. */
  @Test
  void order_of_posting_changes_no_final_advice() {
    List<ObjectNode> entries = eightLevels();
    entries.set(
        10, with(run(DAY_0.plusDays(16), 6), e -> response(e).withObject("/pain").put("worst", 4)));
    entries.forEach(this::post);
    JsonNode inOrder = comparable(advice("k-1"));
    Random random = new Random(8);
    for (int i = 0; i < 5; i++) {
      String caseId = "shuffled-" + i;
      put(caseId);
      List<ObjectNode> shuffled = new ArrayList<>();
      for (ObjectNode entry : entries) {
        shuffled.add(renamed(entry, "-" + i));
      }
      Collections.shuffle(shuffled, random);
      shuffled.forEach(entry -> post(caseId, entry));
      assertThat(comparable(advice(caseId))).isEqualTo(inOrder);
    }
  }

  /** Record ids are unique in a clinic, so another case needs others. */
  private static ObjectNode renamed(ObjectNode entry, String suffix) {
    ObjectNode copy = entry.deepCopy();
    copy.put("recordId", entry.path("recordId").asString() + suffix);
    JsonNode check = copy.at("/entry/kneeCheck");
    if (check.has("completes")) {
      ((ObjectNode) check).put("completes", check.path("completes").asString() + suffix);
    }
    return copy;
  }

  /** Without the identifiers, which the service gives anew. */
  private static JsonNode comparable(JsonNode advice) {
    String text =
        advice
            .toString()
            .replaceAll("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", "id")
            .replaceAll("\"caseId\":\"[^\"]*\"", "");
    return JsonNodeFactory.instance.stringNode(text);
  }

  @Test
  void calf_pain_stops_everything_until_a_clinician_clears_it() {
    post(run(DAY_0, 1));
    post(morning(DAY_0));
    ObjectNode evening =
        with(
            check("evening", DAY_0.plusDays(1) + "T21:00:00+01:00"),
            c -> flags(c).put("calfPain", "yes").put("calfSwelling", "yes"));
    JsonNode stopped = post(evening).path("advice");
    assertThat(stopped.path("outcome").asString()).isEqualTo("stop-and-refer");
    assertThat(stopped.path("urgency").asString()).isEqualTo("same-day");
    assertThat(stopped.path("message").asString()).contains("contact the clinic today");
    assertThat(stopped.at("/cautions/0/code").asString()).isEqualTo("standing-red-flag");
    assertThat(stopped.at("/tracks/0").has("next")).isFalse();

    // Nothing but a clearance ends it, and however long it takes.
    for (int day = 2; day <= 200; day += 6) {
      post(run(DAY_0.plusDays(day), 1));
      post(morning(DAY_0.plusDays(day)));
    }
    assertThat(advice("k-1").path("outcome").asString()).isEqualTo("stop-and-refer");

    JsonNode cleared =
        post(clearance("c-1", DAY_0.plusDays(201) + "T09:00:00+01:00", "evening")).path("advice");
    assertThat(cleared.path("standing")).isEmpty();
    assertThat(cleared.path("outcome").asString()).isEqualTo("advance");
  }

  @Test
  void completing_entry_leaves_the_first_as_it_is() {
    JsonNode first = post(run(DAY_0, 1));
    String id = first.path("sessionId").asString();
    byte[] before = service.sessions().get(clinic, id).bytes();
    JsonNode morning =
        post(with(morning(DAY_0), m -> m.withObject("/entry/kneeCheck").put("completes", id)));
    assertThat(morning.at("/advice/outcome").asString()).isEqualTo("advance");
    assertThat(service.sessions().get(clinic, id).bytes()).isEqualTo(before);
  }

  @Test
  void same_record_again_changes_nothing_and_other_content_is_refused() {
    Recorded first = service.sessions().add(clinic, "k-1", run(DAY_0, 1), Optional.empty());
    Recorded again = service.sessions().add(clinic, "k-1", run(DAY_0, 1), Optional.empty());
    assertThat(again.novelty()).isEqualTo(Recorded.Novelty.UNCHANGED);
    assertThat(again.document()).isEqualTo(first.document());
    assertThatThrownBy(() -> post(run(DAY_0, 2)))
        .isInstanceOfSatisfying(
            Refused.class, r -> assertThat(r.refusal()).isEqualTo(Refusal.CONFLICT));
  }

  @Test
  void idempotency_key_is_answered_with_the_first_record() {
    Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("k", "f".repeat(64)));
    ObjectNode json = run(DAY_0, 1);
    json.remove("recordId");
    Recorded first = service.sessions().add(clinic, "k-1", json, key);
    Recorded again = service.sessions().add(clinic, "k-1", json, key);
    assertThat(again.novelty()).isEqualTo(Recorded.Novelty.REPLAYED);
    assertThat(again.id()).isEqualTo(first.id());
  }

  /** The five faults that the task names, and more, in one document. */
  @Test
  void all_faults_are_told_at_once() {
    ObjectNode json = run(DAY_0, 5);
    json.withObject("/entry/training/work/running/0/programme").put("levelBefore", 2);
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
            "#/entry/training/work/running/0/programme/level level.skips-plan",
            "#/operatedSide side.contradicts-case");
  }

  @Test
  void level_that_the_plan_cannot_have_led_to_is_refused() {
    post(run(DAY_0, 1));
    assertThat(refused(run(DAY_0.plusDays(3), 3)))
        .extracting(Fault::code)
        .containsExactly("level.skips-plan");
    // Two runs in between may still be recorded, so this one is taken and pointed out.
    JsonNode later = post(run(DAY_0.plusDays(4), 3));
    assertThat(later.at("/warnings/0/code").asString()).isEqualTo("level.ahead-of-record");
    assertThat(refused(run(DAY_0.plusDays(3), 1)))
        .extracting(Fault::code)
        .containsExactly("level.skips-plan");
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
  void unusual_rules_count_once_they_are_named() {
    post(with(run(DAY_0, 3), e -> response(e).withObject("/soreness").put("warmUp", "gone")));
    post(morning(DAY_0));
    assertThat(advice("k-1").path("outcome").asString()).isEqualTo("hold");
    AdviceQuestion sheet =
        new AdviceQuestion(
            Optional.empty(),
            Optional.empty(),
            Set.of("soreness-rules-sheet/1"),
            SdMethod.SAMPLE,
            false);
    assertThat(tree(service.sessions().advice(clinic, "k-1", sheet)).path("outcome").asString())
        .isEqualTo("step-back");
    AdviceQuestion unknown =
        new AdviceQuestion(
            Optional.empty(), Optional.empty(), Set.of("none/1"), SdMethod.SAMPLE, false);
    assertThatThrownBy(() -> service.sessions().advice(clinic, "k-1", unknown))
        .isInstanceOfSatisfying(
            Refused.class, r -> assertThat(r.refusal()).isEqualTo(Refusal.NOT_FOUND));
  }

  @Test
  void acute_and_chronic_load_are_off_by_default_and_descriptive() {
    for (int day = 0; day < 28; day++) {
      post(run(DAY_0.plusDays(day), 1));
    }
    assertThat(advice("k-1").path("load").has("acuteChronic")).isFalse();
    AdviceQuestion asked =
        new AdviceQuestion(Optional.empty(), Optional.empty(), Set.of(), SdMethod.POPULATION, true);
    JsonNode shown = tree(service.sessions().advice(clinic, "k-1", asked));
    assertThat(shown.at("/load/acuteChronic")).hasSize(3);
    assertThat(shown.at("/load/acuteChronic/0/descriptiveOnly").asBoolean()).isTrue();
    assertThat(shown.at("/load/acuteChronic/0/ratio/value").asDouble()).isEqualTo(1);
    assertThat(shown.at("/load/sdMethod").asString()).isEqualTo("population");
    assertThat(shown.at("/load/week/value").asDouble()).isEqualTo(7 * 90);
    assertThat(shown.path("cautions"))
        .anyMatch(c -> c.path("code").asString().equals("acute-chronic-descriptive"));
    assertThat(shown.path("outcome")).isEqualTo(advice("k-1").path("outcome"));
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

  @Test
  void list_goes_newest_first() {
    eightLevels().forEach(this::post);
    Page page = service.sessions().list(clinic, "k-1", Optional.empty(), 5);
    assertThat(page.items()).hasSize(5);
    assertThat(tree(page.items().get(0)).at("/session/recordId").asString())
        .isEqualTo("morning-" + DAY_0.plusDays(23));
    Page rest = service.sessions().list(clinic, "k-1", page.next(), 50);
    assertThat(rest.items()).hasSize(11);
  }
}

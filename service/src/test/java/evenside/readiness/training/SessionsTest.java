package evenside.readiness.training;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.check;
import static evenside.training.Diary.clearance;
import static evenside.training.Diary.flags;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.load.SdMethod;
import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The training record over a real store: an invented runner's eight weeks, entry by entry. */
class SessionsTest extends TrainingRecord {
  private static final int[] DAYS = {0, 2, 4, 9, 11, 16, 18, 23};

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

  /** The published limits give level 8 on day 23; each reply says so beforehand. */
  @Test
  void clean_history_reaches_level_8_on_day_23() {
    int[] up = {1, 2, 3, 4, 5, 6, 7};
    for (int i : up) {
      LocalDate day = DAY_0.plusDays(DAYS[i - 1]);
      JsonNode evening = post(run(day, i)).path("advice");
      assertThat(evening.path("outcome").asString()).isEqualTo("insufficient-data");
      JsonNode next = post(morning(day)).at("/advice/work/0");
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
    assertThat(stopped.at("/work/0").has("next")).isFalse();

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

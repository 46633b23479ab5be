package evenside.readiness.recovery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import evenside.document.Document;
import evenside.readiness.Rehab;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class PlansTest {
  private static final LocalDate SURGERY = LocalDate.parse("2026-01-05");

  @AutoClose private static Rehab rehab;

  @BeforeAll
  static void open(@TempDir Path folder) {
    rehab = Rehab.in(folder);
    rehab.put("k-1", Rehab.person(SURGERY));
  }

  private static ObjectNode plan() {
    ObjectNode json = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    json.put("milestone", "return-to-competition").put("adoptedBy", "clinician-7");
    json.put("from", "2026-09-14").put("until", "2026-10-25");
    ObjectNode item = json.putArray("items").addObject();
    item.put("exercise", "loaded-split-squat").put("focusArea", "quadriceps-strength");
    item.put("timesPerWeek", 3);
    json.putArray("retests")
        .addObject()
        .put("measure", "single-hop-distance")
        .put("on", "2026-10-12");
    return json;
  }

  private static Recorded adopt(JsonNode plan) {
    return rehab.service.plans().adopt(Rehab.CLINIC, "k-1", plan, Optional.empty());
  }

  @Test
  void adoptedPlan_isServedAsRecorded_newestFirst() {
    Recorded first = adopt(plan());
    Recorded second = adopt(plan().put("note", "more"));

    JsonNode served = Rehab.valid("adopted-plan-record", first.document());
    assertThat(served.path("plan")).isEqualTo(plan());
    assertThat(served.path("sha256").asString()).isEqualTo(Document.of(plan()).sha256());
    assertThat(rehab.service.plans().get(Rehab.CLINIC, first.id())).isEqualTo(first.document());
    Page page = rehab.service.plans().ofCase(Rehab.CLINIC, "k-1", Optional.empty(), 1);
    assertThat(page.items()).containsExactly(second.document());
    assertThat(rehab.service.plans().ofCase(Rehab.CLINIC, "k-1", page.next(), 10).items())
        .contains(first.document());
  }

  @Test
  void equalRequest_withTheSameKey_isRecordedOnce() {
    Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("key-1", "f".repeat(64)));
    Recorded first = rehab.service.plans().adopt(Rehab.CLINIC, "k-1", plan(), key);
    Recorded again = rehab.service.plans().adopt(Rehab.CLINIC, "k-1", plan(), key);
    assertThat(again.id()).isEqualTo(first.id());
    assertThat(again.novelty()).isEqualTo(Recorded.Novelty.REPLAYED);
  }

  @Test
  void everyFault_isReportedAtOnce() {
    ObjectNode plan = plan().put("until", "2026-09-13").put("milestone", "start-jumping");
    ((ObjectNode) plan.at("/items/0")).put("exercise", "cartwheel").put("focusArea", "circus");
    ((ObjectNode) plan.at("/retests/0")).put("measure", "applause");

    assertThatThrownBy(() -> adopt(plan))
        .isInstanceOfSatisfying(
            Refused.class,
            refused ->
                assertThat(refused.faults().stream().map(f -> f.pointer() + " " + f.code()))
                    .containsExactly(
                        "#/items/0/exercise exercise.unknown",
                        "#/items/0/focusArea focus-area.unknown",
                        "#/milestone milestone.no-usual-set",
                        "#/retests/0/measure measure.unknown",
                        "#/until date.before-start"));
  }

  /**
   * Two lunges a day for a week are 14, of which 11 were done: 78.6 % (the worked example of a home
   * week in the project's evidence). Both legs of one entry count once.
   */
  @Test
  void sessions_areComparedWithTheAdoptedPlan() {
    String caseId = rehab.put("trained", Rehab.person(SURGERY));
    ObjectNode plan = plan().put("from", "2026-03-09").put("until", "2026-03-22");
    plan.remove("retests");
    plan.putArray("items").addObject().put("exercise", "forward-lunge").put("timesPerWeek", 14);
    plan.withArray("items").addObject().put("exercise", "easy-run").put("timesPerWeek", 2);
    String id = rehab.service.plans().adopt(Rehab.CLINIC, caseId, plan, Optional.empty()).id();
    String lunges =
        """
        {"exercise": "forward-lunge", "side": "%s",
         "planned": {"sets": 3, "repetitions": 12, "timesPerDay": 2, "days": 7},
         "completed": {"repetitions": [12, 12, 12], "times": 11}}
        """;
    String plank =
        """
        {"exercise": "prone-plank", "side": "both", "completed": {"holds": [30, 30]}}
        """;
    String home =
        "{\"work\": {\"strength\": [%s, %s], \"core\": [%s]}}"
            .formatted(lunges.formatted("left"), lunges.formatted("right"), plank);
    rehab.train(caseId, LocalDate.parse("2026-03-15"), home);
    String run =
        """
        {"work": {"running": [{"surface": "track",
          "completed": {"runDistance": {"value": 1600, "unit": "m"}}}]}}
        """;
    rehab.train(caseId, LocalDate.parse("2026-03-10"), run);
    rehab.train(caseId, LocalDate.parse("2026-03-17"), run);
    rehab.train(caseId, LocalDate.parse("2026-03-24"), run);

    JsonNode week = adherence(id, "2026-03-15");
    assertThat(week.at("/items/0/planned").asDouble()).isEqualTo(14);
    assertThat(week.at("/items/0/completed").asInt()).isEqualTo(11);
    assertThat(week.at("/items/0/percent").asDouble()).isCloseTo(78.6, within(0.05));
    assertThat(week.at("/items/1/completed").asInt()).isEqualTo(1);
    assertThat(week.path("unplanned").path(0).asString()).isEqualTo("prone-plank");

    JsonNode all = adherence(id, "2026-06-01");
    assertThat(all.path("to").asString()).isEqualTo("2026-03-22");
    assertThat(all.at("/items/0/planned").asDouble()).isEqualTo(28);
    assertThat(all.at("/items/1/weeks/1/completed").asInt()).isEqualTo(1);
    assertThat(all.at("/items/1/percent").asDouble()).isEqualTo(50);
    assertThat(all.path("sessions").asInt()).isEqualTo(3);

    JsonNode before = adherence(id, "2026-03-01");
    assertThat(before.at("/items/0/planned").asDouble()).isZero();
    assertThat(before.at("/items/0").has("percent")).isFalse();
  }

  private static JsonNode adherence(String planId, String asOf) {
    return Rehab.valid(
        "adherence",
        rehab.service.plans().adherence(Rehab.CLINIC, planId, Optional.of(LocalDate.parse(asOf))));
  }

  @Test
  void unknownCaseAndUnknownPlan_areNotThere() {
    assertThatThrownBy(
            () -> rehab.service.plans().adopt(Rehab.CLINIC, "k-9", plan(), Optional.empty()))
        .isInstanceOfSatisfying(
            Refused.class, r -> assertThat(r.refusal()).isEqualTo(Refusal.NOT_FOUND));
    String id = adopt(plan()).id();
    assertThatThrownBy(() -> rehab.service.plans().get("elsewhere", id))
        .isInstanceOfSatisfying(
            Refused.class, r -> assertThat(r.refusal()).isEqualTo(Refusal.NOT_FOUND));
  }
}

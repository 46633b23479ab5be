package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.document.Document;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class PlansTest {
  private static final LocalDate SURGERY = LocalDate.parse("2026-01-05");

  private static Rehab rehab;

  @BeforeAll
  static void open(@TempDir Path folder) {
    rehab = Rehab.in(folder);
    rehab.put("k-1", Rehab.person(SURGERY));
  }

  @AfterAll
  static void close() {
    rehab.close();
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

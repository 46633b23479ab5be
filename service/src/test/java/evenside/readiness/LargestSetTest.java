package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.document.CanonicalJson;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.readiness.recovery.Wanted;
import evenside.schemas.StrictJson;
import evenside.store.DecisionFilter;
import evenside.store.cohort.CohortFilter;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A clinic's own set as large as a request can be: what is found on each criterion has room in the
 * record, and the decision is one that its schema allows.
 */
class LargestSetTest {
  private static final String CLINIC = ProvenRecord.CLINIC;
  private static final int PER_GROUP = 40;

  @TempDir Path folder;

  /**
   * As many bytes as a request takes, with the longest texts; and all that two levels of groups
   * hold.
   */
  @ParameterizedTest
  @CsvSource({"26, 200, 500", "40, 1, 0"})
  void decisionByIt_isRecordedReadSearchedCountedAndErased(int groups, int title, int note) {
    ObjectNode set = set(groups, title, note);
    byte[] sent = CanonicalJson.bytes(set);
    assertThat(StrictJson.read(sent, StrictJson.Limits.REQUEST).isObject()).isTrue();
    try (ProvenRecord record = new ProvenRecord(folder)) {
      record.decided();
      record.service.criteriaSets().publish(CLINIC, set);
      ObjectNode request = (ObjectNode) ProvenRecord.json("{'schemaVersion':'1.0'}");
      request.putObject("criteriaSet").put("id", "largest").put("version", "1");

      Recorded decision =
          record.service.decisions().decide(CLINIC, ProvenRecord.CASE, request, Optional.empty());

      JsonNode read = ProvenRecord.json(record.service.decisions().get(CLINIC, decision.id()));
      assertThat(ProvenRecord.CONTRACT.validate("decision", read)).isEmpty();
      int criteria = groups * PER_GROUP;
      assertThat(read.path("undetermined").size() + read.path("notMet").size()).isEqualTo(criteria);
      assertThat(read.path("summary").asString()).endsWith(" more.").hasSizeLessThan(1_000);
      Page found = record.service.decisions().search(CLINIC, by("largest"), Optional.empty(), 10);
      assertThat(found.items()).containsExactly(decision.document());
      JsonNode cohort = ProvenRecord.json(record.service.cohorts().of(CLINIC, cohort()));
      assertThat(cohort.path("criteria").size()).isEqualTo(criteria);
      ObjectNode erasure = ProvenRecord.example("erasure-request/everything");
      erasure.put("caseId", ProvenRecord.CASE);
      record.service.erasures().erase(CLINIC, erasure, Optional.empty());
      assertThatThrownBy(() -> record.service.decisions().get(CLINIC, decision.id()))
          .isInstanceOfSatisfying(
              Refused.class, gone -> assertThat(gone.refusal()).isEqualTo(Refusal.ERASED));
      assertThat(record.service.decisions().search(CLINIC, by("largest"), Optional.empty(), 10))
          .satisfies(page -> assertThat(page.items()).isEmpty());
    }
  }

  private static DecisionFilter by(String set) {
    return new DecisionFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.of(set),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  private static Cohorts.Asked cohort() {
    Wanted wanted = new Wanted(Optional.empty(), Optional.of("largest/1"), Optional.empty());
    return new Cohorts.Asked(wanted, Optional.empty(), Optional.empty(), CohortFilter.EVERYBODY);
  }

  private static ObjectNode set(int groups, int title, int note) {
    ObjectNode set =
        (ObjectNode) ProvenRecord.json("{'schemaVersion':'1.0','id':'largest','version':'1'}");
    set.put("title", "T".repeat(200)).put("milestone", "return-to-competition");
    set.put("designedFor", "D".repeat(500)).put("population", "P".repeat(500));
    set.put("basis", "clinic-protocol").putObject("source").put("source", "our-protocol");
    ObjectNode source = set.putArray("sources").addObject().put("key", "our-protocol");
    source.put("citation", "Protocol of an invented clinic, 2026");
    ArrayNode all = group(set.putObject("criteria"), "all");
    for (int i = 0; i < groups; i++) {
      ArrayNode group = group(all.addObject(), "group-" + i);
      for (int k = 0; k < PER_GROUP; k++) {
        leaf(group.addObject(), "%064d".formatted(i * PER_GROUP + k), title, note);
      }
    }
    return set;
  }

  private static ArrayNode group(ObjectNode json, String id) {
    return json.put("type", "all").put("id", id).put("title", "All of " + id).putArray("of");
  }

  private static void leaf(ObjectNode json, String id, int title, int note) {
    json.put("type", "cut-off").put("id", id).put("title", "t".repeat(title));
    json.put("measure", "single-hop-distance").put("aspect", "symmetry").put("comparator", ">=");
    json.put("bound", 100).put("unit", "%").put("verified", true);
    json.putObject("citation").put("source", "our-protocol");
    if (note > 0) {
      json.put("note", "n".repeat(note));
    }
  }
}

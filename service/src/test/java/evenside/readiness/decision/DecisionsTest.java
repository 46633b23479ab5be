package evenside.readiness.decision;

import static evenside.readiness.Office.refused;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.document.Document;
import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.example.Verdict;
import evenside.readiness.Office;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.store.DecisionFilter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class DecisionsTest {
  private static final String SET = "delaware-oslo/2020.1";

  /** Members that name the record and not what it says. */
  private static final Set<String> OF_THE_RECORD = Set.of("decisionId", "decidedAt", "caseId");

  @AutoClose private static Office office;

  @BeforeAll
  static void open(@TempDir Path folder) {
    office = Office.in(folder);
  }

  @Test
  void decision_isKeptAndReadBackByteForByte() {
    String caseId = done();
    Recorded made = office.decide(caseId, Office.request(SET));
    assertThat(made.novelty()).isEqualTo(Recorded.Novelty.CREATED);
    assertThat(office.service.decisions().get(Office.CLINIC, made.id())).isEqualTo(made.document());
    JsonNode json = Clinic.read(made.document());
    assertThat(json.path("outcome").asString()).isEqualTo("met");
    assertThat(json.path("asOf").asString()).isEqualTo(Clinic.TODAY);
    assertThat(json.at("/criteriaSet/sha256").asString())
        .isEqualTo(office.service.desk().criteriaSet("delaware-oslo", "2020.1").sha256());
  }

  @Test
  void sameBatteryDecidedTwice_givesEqualBytes() {
    String caseId = done();
    Recorded first = office.decide(caseId, Office.request(SET));
    office.now.set(Clinic.NOW.plusSeconds(90));
    Recorded second = office.decide(caseId, Office.request(SET));
    office.now.set(Clinic.NOW);
    assertThat(second.id()).isNotEqualTo(first.id());
    assertThat(judgement(second)).isEqualTo(judgement(first));
  }

  @Test
  void decisionForAnEarlierDate_ignoresLaterBatteries() {
    String caseId = done();
    Document before = judgement(office.decide(caseId, asOf("2026-10-21")));
    office.add(
        caseId, TestDay.at("2026-10-22T10:00:00+02:00").timedHop("left", 9).timedHop("right", 2));
    office.add(caseId, TestDay.at("2026-10-23T10:00:00+02:00").fact("locking", true));
    assertThat(judgement(office.decide(caseId, asOf("2026-10-21")))).isEqualTo(before);
    Verdict later = new Verdict(Clinic.read(office.decide(caseId, asOf("2026-10-23")).document()));
    assertThat(later.outcome()).isEqualTo("not-met");
    assertThat(later.cautions()).contains("red-flag");
  }

  @Test
  void milestone_takesItsUsualSet() {
    ObjectNode request = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    request.put("milestone", "return-to-competition");
    JsonNode json = Clinic.read(office.decide(done(), request).document());
    assertThat(json.at("/criteriaSet/id").asString()).isEqualTo("delaware-oslo");
    assertThat(json.at("/criteriaSet/version").asString()).isEqualTo("2020.1");
  }

  @Test
  void ageAskedFor_limitsTheResults() {
    ObjectNode request = Office.request(SET).put("maxResultAgeDays", 10);
    JsonNode json = Clinic.read(office.decide(done(), request).document());
    assertThat(json.path("outcome").asString()).isEqualTo("undetermined");
  }

  @Test
  void decisionThatCannotBeMade_isRefusedAndNotStored() {
    String caseId = done();
    Refused early = refused(Refusal.INVALID, () -> office.decide(caseId, asOf("2025-09-30")));
    assertThat(early.faults().get(0).code()).isEqualTo("date.before-surgery");
    assertThat(early.faults().get(0).limit().orElse("")).contains(Clinic.SURGERY);
    refused(Refusal.INVALID, () -> office.decide(caseId, Office.request("no-such-set/1")));
    refused(Refusal.NOT_FOUND, () -> office.decide("nobody", Office.request(SET)));
    assertThat(ofCase(caseId)).isEmpty();
  }

  @Test
  void repeatedRequest_isAnsweredWithItsFirstAnswer() {
    String caseId = done();
    Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("d-" + caseId, "a".repeat(64)));
    Recorded made = decide(caseId, key);
    office.add(caseId, TestDay.at("2026-10-25T10:00:00+02:00").tTest(12));
    Recorded again = decide(caseId, key);
    assertThat(again.novelty()).isEqualTo(Recorded.Novelty.REPLAYED);
    assertThat(again.document()).isEqualTo(made.document());
    assertThat(ofCase(caseId)).hasSize(1);
  }

  @Test
  void auditor_findsDecisionsByOutcomeSetAndTime() {
    String caseId = done();
    office.now.set(Instant.parse("2026-11-03T08:00:00Z"));
    Recorded met = office.decide(caseId, Office.request(SET));
    office.now.set(Instant.parse("2026-11-03T09:00:00Z"));
    Recorded open = office.decide(caseId, Office.request("wellsandt-2017-pre-injury-capacity/1"));
    office.now.set(Clinic.NOW);
    assertThat(ofCase(caseId)).containsExactly(open.document(), met.document());
    DecisionFilter undetermined =
        new DecisionFilter(
            Optional.of(caseId),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.of("undetermined"),
            Optional.of(Instant.parse("2026-11-03T08:30:00Z")),
            Optional.empty());
    assertThat(search(undetermined)).containsExactly(open.document());
    refused(Refusal.NOT_FOUND, () -> office.service.decisions().get("other-clinic", met.id()));
  }

  /** A case of a person who met everything on 20 October. */
  private static String done() {
    String caseId = office.newCase(Clinic.person());
    office.add(caseId, TestDay.meetingEverything("2026-10-20T10:00:00+02:00"));
    return caseId;
  }

  private static ObjectNode asOf(String date) {
    return Office.request(SET).put("asOf", date);
  }

  private static Recorded decide(String caseId, Optional<IdempotencyKey> key) {
    return office.service.decisions().decide(Office.CLINIC, caseId, Office.request(SET), key);
  }

  private static Document judgement(Recorded decision) {
    ObjectNode json = (ObjectNode) Clinic.read(decision.document());
    return Document.of(json.remove(OF_THE_RECORD));
  }

  private static List<Document> ofCase(String caseId) {
    return office.service.decisions().ofCase(Office.CLINIC, caseId, Optional.empty(), 50).items();
  }

  private static Set<Document> search(DecisionFilter filter) {
    return office
        .service
        .decisions()
        .search(Office.CLINIC, filter, Optional.empty(), 50)
        .items()
        .stream()
        .collect(Collectors.toSet());
  }
}

package evenside.readiness.audit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.document.Document;
import evenside.evidence.BundleVerifier;
import evenside.ledger.LedgerAudit;
import evenside.readiness.ProvenRecord;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refused;
import evenside.store.DecisionFilter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** What an auditor asks two years later: determinations, corrections, replays, search, trail. */
class AuditTest {
  private static final String CLINIC = ProvenRecord.CLINIC;

  @TempDir private Path folder;
  private ProvenRecord record;

  @BeforeEach
  void open() {
    record = new ProvenRecord(folder);
  }

  @AfterEach
  void close() {
    record.close();
  }

  private Recorded determine(Recorded decision, String statement, String reason) {
    return record.determine(decision.id(), statement, reason);
  }

  private static String outcome(Recorded decision) {
    return ProvenRecord.json(decision.document()).path("outcome").asString();
  }

  private static void assertFollows(String kind, Document document) {
    assertThat(ProvenRecord.CONTRACT.validate(kind, ProvenRecord.json(document))).isEmpty();
  }

  @Test
  void determination_needsAReason_whereItDiffersFromTheOutcome() {
    Recorded decision = record.decided();
    assertThat(outcome(decision)).isNotEqualTo("met");
    assertThatThrownBy(() -> determine(decision, "cleared", ""))
        .isInstanceOf(Refused.class)
        .extracting(e -> ((Refused) e).faults().get(0).code())
        .isEqualTo("reason.required");
    Recorded cleared = determine(decision, "cleared", "Tested again elsewhere.");
    assertThat(ProvenRecord.json(cleared.document()).path("differs").asBoolean()).isTrue();
    assertThat(cleared.receipt()).isPresent();
    assertThat(ProvenRecord.json(cleared.document()).path("client").asString())
        .isEqualTo("gym-software");
    assertFollows("determination-record", cleared.document());
    assertThat(record.service.determinations().of(CLINIC, decision.id()))
        .containsExactly(cleared.document());
    assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
  }

  @Test
  void determination_onAnUndeterminedOutcome_alwaysNeedsAReason() {
    record.putCase(ProvenRecord.CASE);
    Recorded decision = record.decide(ProvenRecord.CASE);
    assertThat(outcome(decision)).isEqualTo("undetermined");
    assertThatThrownBy(() -> determine(decision, "not-cleared", ""))
        .hasMessageContaining("1 fault");
    Recorded with = determine(decision, "not-cleared", "Nothing was tested.");
    assertThat(ProvenRecord.json(with.document()).path("differs").asBoolean()).isFalse();
  }

  @Test
  void correction_keepsBoth_leavesOldDecisions_andOnlyItCountsFromThenOn() {
    record.putCase(ProvenRecord.CASE);
    Recorded old = record.addBattery(ProvenRecord.CASE);
    Recorded before = record.decide(ProvenRecord.CASE);
    ObjectNode corrected = ProvenRecord.battery().put("replaces", old.id());
    Recorded newer =
        record.service.batteries().add(CLINIC, ProvenRecord.CASE, corrected, Optional.empty());
    Recorded after = record.decide(ProvenRecord.CASE);

    assertThat(newer.receipt()).isPresent();
    assertThat(batteriesOf(before)).containsExactly(old.id());
    assertThat(batteriesOf(after)).containsExactly(newer.id());
    assertThat(record.service.batteries().get(CLINIC, old.id())).isEqualTo(old.document());
    assertThat(record.service.decisions().get(CLINIC, before.id())).isEqualTo(before.document());
    Document corrections = record.service.corrections().of(CLINIC, old.id());
    assertFollows("corrections", corrections);
    JsonNode json = ProvenRecord.json(corrections);
    assertThat(json.path("replacedBy").asString()).isEqualTo(newer.id());
    assertThat(json.path("decisions")).singleElement().hasToString("\"" + before.id() + "\"");
    assertThat(json.path("affected").asBoolean()).isTrue();
    assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
    assertThatThrownBy(
            () ->
                record
                    .service
                    .batteries()
                    .add(CLINIC, ProvenRecord.CASE, corrected, Optional.empty()))
        .hasMessageContaining("was corrected already");
  }

  @Test
  void correction_ofAnotherCasesBattery_isRefused() {
    record.decided();
    record.putCase("case-2");
    Recorded others = record.addBattery("case-2");
    ObjectNode corrected = ProvenRecord.battery().put("replaces", others.id());
    assertThatThrownBy(
            () ->
                record
                    .service
                    .batteries()
                    .add(CLINIC, ProvenRecord.CASE, corrected, Optional.empty()))
        .isInstanceOf(Refused.class)
        .extracting(e -> ((Refused) e).faults().get(0).code())
        .isEqualTo("battery.unknown");
  }

  private static List<String> batteriesOf(Recorded decision) {
    return ProvenRecord.json(decision.document())
        .path("batteries")
        .valueStream()
        .map(battery -> battery.path("batteryId").asString())
        .toList();
  }

  @Test
  void replay_givesTheSameBytes() {
    Recorded decision = record.decided();
    Document replay =
        record
            .service
            .replays()
            .replay(CLINIC, decision.id(), ProvenRecord.example("replay-request/everything"));
    assertFollows("replay", replay);
    JsonNode json = ProvenRecord.json(replay);
    assertThat(json.path("identical").asBoolean()).isTrue();
    assertThat(json.path("differences")).isEmpty();
  }

  @Test
  void decisionByTheClinicsOwnSet_onTraining_isProvedAndReplayed() {
    record.service.criteriaSets().publish(CLINIC, ProvenRecord.example("criteria-set/everything"));
    record.putCase(ProvenRecord.CASE);
    record.addBattery(ProvenRecord.CASE);
    record
        .service
        .sessions()
        .add(
            CLINIC, ProvenRecord.CASE, ProvenRecord.example("session/first-run"), Optional.empty());
    JsonNode set = ProvenRecord.example("criteria-set/everything");
    ObjectNode request = Records.object().put("schemaVersion", "1.0").put("asOf", "2026-11-20");
    request.putObject("criteriaSet").set("id", set.path("id"));
    ((ObjectNode) request.path("criteriaSet")).set("version", set.path("version"));
    Recorded decision =
        record.service.decisions().decide(CLINIC, ProvenRecord.CASE, request, Optional.empty());
    assertThat(ProvenRecord.json(decision.document()).path("sessions")).hasSize(1);
    Document replay =
        record
            .service
            .replays()
            .replay(CLINIC, decision.id(), ProvenRecord.example("replay-request/as-it-was"));
    assertThat(ProvenRecord.json(replay).path("identical").asBoolean()).isTrue();
    byte[] bundle =
        record.service.evidence().bundle(CLINIC, decision.id(), OptionalLong.empty()).bytes();
    assertThat(
            BundleVerifier.verify(
                    bundle,
                    List.of(record.verifier()),
                    Optional.empty(),
                    Optional.of(Recomputation.of(ProvenRecord.CONTRACT)))
                .failed())
        .isEmpty();
    // The key, the published set, the decision: the set is not entered a second time.
    assertThat(decision.receipt().orElseThrow().index()).isEqualTo(2);
    assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
  }

  @Test
  void replay_ofADecisionThatSaysOtherwise_namesThePlace() {
    JsonNode decided = ProvenRecord.json("{'outcome':'met','notMet':[],'finding':{'of':[1,2]}}");
    JsonNode again = ProvenRecord.json("{'outcome':'not-met','notMet':['a'],'finding':{'of':[1]}}");
    assertThat(Differences.of(decided, again, "decided", "replayed"))
        .isEqualTo(
            ProvenRecord.json(
                "[{'pointer':'/finding/of/1','decided':2},"
                    + "{'pointer':'/notMet/0','replayed':'a'},"
                    + "{'pointer':'/outcome','decided':'met','replayed':'not-met'}]"));
  }

  @Test
  void whatIf_showsBothSets_andRecordsNothing() {
    Recorded decision = record.decided();
    JsonNode request =
        ProvenRecord.json(
            "{'schemaVersion':'1.0','criteriaSet':{'id':'gokeler-welling','version':'2018.1'}}");
    Document whatIf = record.service.replays().whatIf(CLINIC, decision.id(), request);
    assertFollows("what-if", whatIf);
    JsonNode json = ProvenRecord.json(whatIf);
    assertThat(json.path("recorded").asBoolean(true)).isFalse();
    assertThat(json.at("/whatIf/criteriaSet/id").asString()).isEqualTo("gokeler-welling");
    assertThat(json.path("comparison")).isNotEmpty();
    assertThat(all(DecisionFilter.ALL)).containsExactly(decision.document());
  }

  @Test
  void whatIf_onAnEarlierDate_looksAtWhatWasThereThen() {
    Recorded decision = record.decided();
    JsonNode request = ProvenRecord.json("{'schemaVersion':'1.0','asOf':'2026-08-01'}");
    JsonNode json =
        ProvenRecord.json(record.service.replays().whatIf(CLINIC, decision.id(), request));
    assertThat(json.path("changes"))
        .anySatisfy(
            row -> {
              assertThat(row.at("/before/value/value").isNumber()).isTrue();
              assertThat(row.at("/after/outcome").asString()).isEqualTo("undetermined");
            });
    assertThatThrownBy(
            () ->
                record
                    .service
                    .replays()
                    .whatIf(
                        CLINIC,
                        decision.id(),
                        ProvenRecord.json("{'schemaVersion':'1.0','asOf':'2020-01-01'}")))
        .isInstanceOf(Refused.class);
  }

  @Test
  void whatIf_onTheSameTerms_changesNothing() {
    Recorded decision = record.decided();
    JsonNode request = ProvenRecord.json("{'schemaVersion':'1.0','asOf':'2026-11-20'}");
    JsonNode json =
        ProvenRecord.json(record.service.replays().whatIf(CLINIC, decision.id(), request));
    assertThat(json.path("changes")).isNotEmpty();
    assertThat(json.path("changes"))
        .allSatisfy(row -> assertThat(row.path("change").asString()).isEqualTo("none"));
  }

  @Test
  void whatChanged_isSaidCriterionByCriterion() {
    record.putCase(ProvenRecord.CASE);
    Recorded before = record.decide(ProvenRecord.CASE);
    record.addBattery(ProvenRecord.CASE);
    Recorded after = record.decide(ProvenRecord.CASE);
    Document changes = record.service.replays().changes(CLINIC, after.id(), before.id());
    assertFollows("decision-changes", changes);
    JsonNode json = ProvenRecord.json(changes);
    assertThat(json.path("sameCriteriaSet").asBoolean()).isTrue();
    assertThat(json.path("changes"))
        .anySatisfy(
            row -> {
              assertThat(row.path("change").asString()).isEqualTo("outcome");
              assertThat(row.at("/before/outcome").asString()).isEqualTo("undetermined");
              assertThat(row.at("/after/value/value").isNumber()).isTrue();
            });
    record.putCase("case-2");
    Recorded others = record.decide("case-2");
    assertThatThrownBy(() -> record.service.replays().changes(CLINIC, after.id(), others.id()))
        .hasMessageContaining("of different cases");
  }

  @Test
  void search_bySubjectClinicianAndDiffering() {
    Recorded first = record.decided();
    ObjectNode other = ProvenRecord.example("case/minimal").put("subject", "S-0999");
    record.service.cases().put(CLINIC, "case-2", other, Optional.empty());
    Recorded second = record.decide("case-2");
    determine(first, "cleared", "Seen by two.");
    determine(second, "deferred", "Later.");

    assertThat(all(filter(Optional.of("S-0999"), Optional.empty(), Optional.empty())))
        .containsExactly(second.document());
    assertThat(all(filter(Optional.empty(), Optional.of("pt-014"), Optional.empty())))
        .containsExactly(second.document(), first.document());
    assertThat(all(filter(Optional.empty(), Optional.of("nobody"), Optional.empty()))).isEmpty();
    assertThat(all(filter(Optional.empty(), Optional.empty(), Optional.of(true))))
        .containsExactly(first.document());
    assertThat(all(filter(Optional.empty(), Optional.empty(), Optional.of(false))))
        .containsExactly(second.document());
  }

  private static DecisionFilter filter(
      Optional<String> subject, Optional<String> clinician, Optional<Boolean> differing) {
    return DecisionFilter.ALL.about(subject, clinician, differing);
  }

  private List<Document> all(DecisionFilter filter) {
    return record.service.decisions().search(CLINIC, filter, Optional.empty(), 50).items();
  }

  @Test
  void trail_saysWhoReadWhat_andOutlivesAKilledProcess() {
    Recorded decision = record.decided();
    record.service.trail().note(CLINIC, "dr-3", "read", List.of(decision.id()));
    record.service.trail().note(CLINIC, "auditor-1", "evidence", List.of(decision.id()));
    List<Document> rows =
        record
            .service
            .trail()
            .list(CLINIC, Optional.of(decision.id()), Optional.empty(), 10)
            .items();
    assertThat(rows).hasSize(2).allSatisfy(row -> assertFollows("access", row));
    assertThat(ProvenRecord.json(rows.get(0)).path("reader").asString()).isEqualTo("auditor-1");
    assertThat(
            record.service.trail().list("clinic-b", Optional.empty(), Optional.empty(), 10).items())
        .isEmpty();
  }
}

package evenside.readiness.decision;

import evenside.criteria.CriteriaSet;
import evenside.document.Document;
import evenside.ledger.NewEntry;
import evenside.ledger.Receipt;
import evenside.readiness.cases.CaseBatteries;
import evenside.readiness.computing.DecisionRequest;
import evenside.readiness.recording.ClinicSets;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Recording;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.UnchangedCase;
import evenside.store.DecisionFilter;
import evenside.store.Position;
import evenside.store.Reading;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import evenside.store.Writing;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/** Deciding, and looking up past decisions. */
public final class Decisions {
  private static final String KIND = "decision";

  private final Records records;

  public Decisions(Records records) {
    this.records = records;
  }

  /** Decides on a case for a milestone or by a named set, and records the decision. */
  public Recorded decide(
      String clinic, String caseId, JsonNode request, Optional<IdempotencyKey> key) {
    return records
        .recording()
        .record(clinic, key, this::get, reading -> prepare(reading, clinic, caseId, request));
  }

  private Recording.Draft prepare(Reading reading, String clinic, String caseId, JsonNode request) {
    ClinicSets sets = records.sets(reading, clinic);
    records.accept("decision-request", request, sets);
    UUID id = records.newId();
    Instant now = records.now();
    CriteriaSet set = sets.asked(request);
    Document criteria = sets.document(set.name()).orElseThrow();
    StoredCase stored = Records.known(reading, clinic, caseId);
    CaseBatteries batteries = new CaseBatteries(reading, stored);
    DecisionRequest asked = DecisionRequest.read(request, now, batteries.offset(now), set);
    DecisionRecord.Made made =
        new DecisionRecord(records, reading, stored, batteries).decide(id, asked, now);
    StoredDecision decision = made.decision();
    Document document = Document.ofCanonical(decision.document());
    return new Recording.Draft(
        KIND,
        new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
        Optional.of(
            () -> NewEntry.decision(id, criteria.bytes(), decision.document(), decision.inputs())),
        writing -> write(writing, made, caseId),
        none -> Optional.empty());
  }

  private void write(Writing writing, DecisionRecord.Made made, String caseId) {
    StoredDecision decision = made.decision();
    String clinic = decision.clinic();
    UnchangedCase.hold(writing, made.seen());
    writing.insertDecision(decision);
    writing.insertFindings(decision, FindingRows.of(made.judged()));
    writing.audit().nameBatteries(clinic, decision.id(), made.batteries());
    if (records.announces(clinic)) {
      writing.outbox().add(clinic, records.newId(), caseId, decision.id(), decision.decidedAt());
    }
  }

  /** A decision, as it was recorded. */
  public Document get(String clinic, String decisionId) {
    return Document.ofCanonical(records.decision(clinic, decisionId).document());
  }

  /** Where the ledger has a decision; empty if it has none, or is off. */
  public Optional<Receipt> receipt(String clinic, String decisionId) {
    return records.recording().receipt(clinic, decisionId);
  }

  /** The decisions on one case, newest first. */
  public Page ofCase(String clinic, String caseId, Optional<String> after, int limit) {
    records.store().read(reading -> Records.known(reading, clinic, caseId));
    return search(clinic, DecisionFilter.ofCase(caseId), after, limit);
  }

  /** The decisions that pass a filter, newest first. */
  public Page search(String clinic, DecisionFilter filter, Optional<String> after, int limit) {
    return records
        .store()
        .read(
            reading -> {
              List<StoredDecision> rows =
                  reading.decisions(clinic, filter, after.flatMap(Position::parse), limit + 1);
              return Records.page(rows, limit, StoredDecision::document, StoredDecision::position);
            });
  }
}

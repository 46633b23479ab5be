package evenside.store;

import static evenside.store.database.Failures.insert;

import evenside.store.clients.ClientKeyWriting;
import evenside.store.cohort.FindingRow;
import evenside.store.database.Failures;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreConflict.Kind;
import evenside.store.evidence.EvidenceRow;
import evenside.store.evidence.FiledNumber;
import evenside.store.ledger.LedgerWriting;
import evenside.store.work.JobWriting;
import evenside.store.work.Outbox;
import java.util.List;
import java.util.function.Supplier;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.JdbiException;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jdbi.v3.core.statement.Update;

/**
 * What a transaction can add. There is no way to change, and none to remove but {@link #erasing}. A
 * {@link StoreConflict} ends the transaction, or the {@link #attempt} it happened in.
 */
public final class Writing extends Reading {
  private static final String PART = "part";

  Writing(Handle handle) {
    super(handle);
  }

  /** What can be added to a ledger. */
  @Override
  public LedgerWriting ledger() {
    return new LedgerWriting(handle);
  }

  /** What can be added of a clinic's cases. */
  public CaseWriting cases() {
    return new CaseWriting(handle);
  }

  /** What can be added to the records around decisions. */
  @Override
  public AuditWriting audit() {
    return new AuditWriting(handle);
  }

  /** The queue of what receivers are still to be told. */
  public Outbox outbox() {
    return new Outbox(handle);
  }

  /** What can be done with bulk work. */
  @Override
  public JobWriting jobs() {
    return new JobWriting(handle);
  }

  /** What can be added of the clients' keys. */
  @Override
  public ClientKeyWriting clientKeys() {
    return new ClientKeyWriting(handle);
  }

  /** What can be erased. */
  public Erasing erasing() {
    return new Erasing(handle);
  }

  /**
   * Does a part of the transaction as a whole or not at all, and lets the rest go on either way.
   *
   * @param part what to do
   * @param <T> what it answers
   * @return the answer of the part
   * @throws StoreConflict if it met something that is already there; its rows are gone again.
   *     {@link Kind#ROLLED_BACK} if those of the whole transaction are: then it must end
   */
  public <T> T attempt(Supplier<T> part) {
    handle.savepoint(PART);
    try {
      T result = part.get();
      handle.releaseSavepoint(PART);
      return result;
    } catch (RuntimeException e) {
      RuntimeException failure = e instanceof JdbiException jdbi ? Failures.explain(jdbi) : e;
      if (!isRolledBack(failure)) {
        handle.rollbackToSavepoint(PART);
      }
      throw failure;
    }
  }

  private static boolean isRolledBack(RuntimeException failure) {
    return failure instanceof StoreConflict conflict && conflict.kind() == Kind.ROLLED_BACK;
  }

  /**
   * Remembers a request. To be called first in the transaction: of many equal requests at once, one
   * gets through, and the others wait here for it to end before they have done anything.
   *
   * @param remembered the request and the record it is going to make
   * @throws StoreConflict {@link Kind#ALREADY_REMEMBERED} if the clinic has used that key
   */
  public void remember(Remembered remembered) {
    Update insert =
        handle
            .createUpdate(
                """
                insert into idempotency
                  (clinic, idempotency_key, fingerprint, kind, record_id, created_at)
                values (:clinic, :key, :fingerprint, :kind, :record_id, :created_at)
                """)
            .bind("clinic", remembered.clinic())
            .bind("key", remembered.key())
            .bind("fingerprint", remembered.fingerprint())
            .bind("kind", remembered.kind())
            .bind("record_id", remembered.recordId())
            .bind("created_at", remembered.createdAt());
    insert(insert, Kind.ALREADY_REMEMBERED);
  }

  /**
   * Adds a battery and what it is evidence for.
   *
   * @param battery the battery, with a new id
   * @param evidence a row for each thing
   * @throws StoreConflict {@link Kind#RECORD_ID_TAKEN} if the clinic has that record id
   */
  public void insertBattery(StoredBattery battery, List<EvidenceRow> evidence) {
    Update insert =
        handle
            .createUpdate(
                """
                insert into battery
                  (clinic, id, case_id, record_id, content_sha256, performed_at, received_at, document)
                values (:clinic, :id, :case_id, :record_id, :content_sha256, :performed_at,
                  :received_at, :document)
                """)
            .bind("clinic", battery.clinic())
            .bind("id", battery.id())
            .bind("case_id", battery.caseId())
            .bind("record_id", battery.recordId())
            .bind("content_sha256", battery.contentSha256())
            .bind("performed_at", battery.performedAt())
            .bind("received_at", battery.receivedAt())
            .bind("document", battery.document());
    if (battery.recordId().isPresent()) {
      insert(insert, Kind.RECORD_ID_TAKEN);
    } else {
      insert.execute();
    }
    insertEvidence(battery, evidence);
  }

  private void insertEvidence(StoredBattery battery, List<EvidenceRow> evidence) {
    if (evidence.isEmpty()) {
      return;
    }
    PreparedBatch batch =
        handle.prepareBatch(
            """
            insert into evidence_index (clinic, battery_id, ordinal, case_id, measure, aspect, mode,
              speed, angle, context, performed_at, amount, unit, way, performed_on)
            values (:clinic, :battery_id, :ordinal, :case_id, :measure, :aspect, :mode,
              :speed, :angle, :context, :performed_at, :amount, :unit, :way, :performed_on)
            """);
    for (int i = 0; i < evidence.size(); i++) {
      EvidenceRow row = evidence.get(i);
      batch
          .bind("clinic", battery.clinic())
          .bind("battery_id", battery.id())
          .bind("ordinal", i)
          .bind("case_id", battery.caseId())
          .bind("measure", row.measure())
          .bind("aspect", row.aspect())
          .bind("mode", row.mode())
          .bind("speed", row.speed())
          .bind("angle", row.angle())
          .bind("context", row.context())
          .bind("performed_at", battery.performedAt())
          .bind("amount", row.number().map(FiledNumber::amount))
          .bind("unit", row.number().map(FiledNumber::unit))
          .bind("way", row.number().map(FiledNumber::way))
          .bind("performed_on", row.number().map(FiledNumber::performedOn))
          .add();
    }
    batch.execute();
  }

  /**
   * Adds an entry of a training record.
   *
   * @param session the entry, with a new id
   * @param content canonical bytes of what was sent
   * @throws StoreConflict {@link Kind#RECORD_ID_TAKEN} if the clinic has that record id
   */
  public void insertSession(StoredSession session, byte[] content) {
    Update insert =
        handle
            .createUpdate(
                """
                insert into training_session (clinic, id, case_id, record_id, content_sha256,
                  performed_at, received_at, flagged, document, content)
                values (:clinic, :id, :case_id, :record_id, :content_sha256,
                  :performed_at, :received_at, :flagged, :document, :content)
                """)
            .bind("clinic", session.clinic())
            .bind("id", session.id())
            .bind("case_id", session.caseId())
            .bind("record_id", session.recordId())
            .bind("content_sha256", session.contentSha256())
            .bind("performed_at", session.performedAt())
            .bind("received_at", session.receivedAt())
            .bind("flagged", session.flagged())
            .bind("document", session.document())
            .bind("content", content);
    if (session.recordId().isPresent()) {
      insert(insert, Kind.RECORD_ID_TAKEN);
    } else {
      insert.execute();
    }
  }

  /** Adds a decision, with a new id. */
  public void insertDecision(StoredDecision decision) {
    handle
        .createUpdate(
            """
            insert into decision (clinic, id, case_id, criteria_set, criteria_version,
              criteria_sha256, milestone, outcome, as_of, decided_at, document, inputs)
            values (:clinic, :id, :case_id, :criteria_set, :criteria_version,
              :criteria_sha256, :milestone, :outcome, :as_of, :decided_at, :document, :inputs)
            """)
        .bind("clinic", decision.clinic())
        .bind("id", decision.id())
        .bind("case_id", decision.caseId())
        .bind("criteria_set", decision.criteriaSet())
        .bind("criteria_version", decision.criteriaVersion())
        .bind("criteria_sha256", decision.criteriaSha256())
        .bind("milestone", decision.milestone())
        .bind("outcome", decision.outcome())
        .bind("as_of", decision.asOf())
        .bind("decided_at", decision.decidedAt())
        .bind("document", decision.document())
        .bind("inputs", decision.inputs())
        .execute();
  }

  /** Adds what a decision, added before, found; the whole set first. */
  public void insertFindings(StoredDecision decision, List<FindingRow> findings) {
    handle
        .createUpdate(
            "insert into found (clinic, decision_id, findings)"
                + " values (:clinic, :decision_id, :findings)")
        .bind("clinic", decision.clinic())
        .bind("decision_id", decision.id())
        .bind("findings", FindingRow.lines(findings))
        .execute();
  }

  /** Adds a plan that a clinician adopted, with a new id. */
  public void insertPlan(StoredPlan plan) {
    handle
        .createUpdate(
            """
            insert into plan (clinic, id, case_id, milestone, adopted_at, document)
            values (:clinic, :id, :case_id, :milestone, :adopted_at, :document)
            """)
        .bind("clinic", plan.clinic())
        .bind("id", plan.id())
        .bind("case_id", plan.caseId())
        .bind("milestone", plan.milestone())
        .bind("adopted_at", plan.adoptedAt())
        .bind("document", plan.document())
        .execute();
  }

  /**
   * Adds a version of a clinic's own criteria set.
   *
   * @param set the version
   * @throws StoreConflict {@link Kind#CRITERIA_SET_TAKEN} if the clinic has that version
   */
  public void insertCriteriaSet(StoredCriteriaSet set) {
    Update insert =
        handle
            .createUpdate(
                """
                insert into criteria_set (clinic, id, version, sha256, document, published_at)
                values (:clinic, :id, :version, :sha256, :document, :published_at)
                """)
            .bind("clinic", set.clinic())
            .bind("id", set.id())
            .bind("version", set.version())
            .bind("sha256", set.sha256())
            .bind("document", set.document())
            .bind("published_at", set.publishedAt());
    insert(insert, Kind.CRITERIA_SET_TAKEN);
  }
}

package evenside.store;

import evenside.store.database.Failures;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreConflict.Kind;
import java.util.Collection;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;

/** What a transaction can add of what follows a decision or a battery. */
public final class AuditWriting extends AuditReading {
  AuditWriting(Handle handle) {
    super(handle);
  }

  /** Files a revision of a case under its subject. */
  public void nameSubject(String clinic, String caseId, int revision, String subject) {
    handle
        .createUpdate(
            "insert into case_subject (clinic, case_id, revision, subject)"
                + " values (:clinic, :case_id, :revision, :subject)")
        .bind("clinic", clinic)
        .bind("case_id", caseId)
        .bind("revision", revision)
        .bind("subject", subject)
        .execute();
  }

  /** Files a decision under the batteries it looked at. */
  public void nameBatteries(String clinic, UUID decisionId, Collection<UUID> batteries) {
    if (batteries.isEmpty()) {
      return;
    }
    PreparedBatch batch =
        handle.prepareBatch(
            "insert into decision_battery (clinic, battery_id, decision_id)"
                + " values (:clinic, :battery_id, :decision_id)");
    for (UUID battery : batteries) {
      batch
          .bind("clinic", clinic)
          .bind("battery_id", battery)
          .bind("decision_id", decisionId)
          .add();
    }
    batch.execute();
  }

  /** Adds a determination. */
  public void insertDetermination(StoredDetermination determination) {
    handle
        .createUpdate(
            """
            insert into determination (clinic, id, decision_id, case_id, statement, clinician,
              differs, determined_at, document)
            values (:clinic, :id, :decision_id, :case_id, :statement, :clinician,
              :differs, :determined_at, :document)
            """)
        .bind("clinic", determination.clinic())
        .bind("id", determination.id())
        .bind("decision_id", determination.decisionId())
        .bind("case_id", determination.caseId())
        .bind("statement", determination.statement())
        .bind("clinician", determination.clinician())
        .bind("differs", determination.differs())
        .bind("determined_at", determination.determinedAt())
        .bind("document", determination.document())
        .execute();
  }

  /**
   * Adds a correction; its battery is inserted in the same transaction.
   *
   * @throws StoreConflict {@link Kind#BATTERY_REPLACED} if another one corrected the same battery
   */
  public void insertCorrection(String clinic, StoredCorrection correction) {
    Failures.insert(
        handle
            .createUpdate(
                "insert into correction (clinic, battery_id, replaces, corrected_at)"
                    + " values (:clinic, :battery_id, :replaces, :corrected_at)")
            .bind("clinic", clinic)
            .bind("battery_id", correction.batteryId())
            .bind("replaces", correction.replaces())
            .bind("corrected_at", correction.correctedAt()),
        Kind.BATTERY_REPLACED);
  }

  /** Adds an erasure. */
  public void insertErasure(String clinic, StoredErasure erasure) {
    handle
        .createUpdate(
            "insert into erasure (clinic, id, erased_at, document)"
                + " values (:clinic, :id, :erased_at, :document)")
        .bind("clinic", clinic)
        .bind("id", erasure.id())
        .bind("erased_at", erasure.erasedAt())
        .bind("document", erasure.document())
        .execute();
  }

  /** Adds rows to the access trail. */
  public void insertAccesses(String clinic, Collection<Access> accesses) {
    PreparedBatch batch =
        handle.prepareBatch(
            """
            insert into access_trail (clinic, id, read_at, reader, action, decision_id)
            values (:clinic, :id, :read_at, :reader, :action, :decision_id)
            """);
    for (Access access : accesses) {
      batch
          .bind("clinic", clinic)
          .bind("id", access.id())
          .bind("read_at", access.readAt())
          .bind("reader", access.reader())
          .bind("action", access.action())
          .bind("decision_id", access.decisionId())
          .add();
    }
    batch.execute();
  }
}

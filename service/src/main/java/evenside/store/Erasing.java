package evenside.store;

import java.util.List;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/**
 * The one place where rows of the record are removed: everything of a case but the entries of the
 * ledger, which hold nothing about a person. What is still to be done of a case goes too; otherwise
 * {@link evenside.store.work} removes its own rows, which are no record.
 */
public final class Erasing {
  /** Rows by which the records of a case are found, then the records themselves. */
  private static final List<String> OF_A_CASE =
      List.of(
          """
          delete from ledger_salt where clinic = :clinic and (
            entry_id in (select id from decision where clinic = :clinic and case_id = :case_id)
            or entry_id in (
              select id from determination where clinic = :clinic and case_id = :case_id)
            or entry_id in (select id from battery where clinic = :clinic and case_id = :case_id))
          """,
          """
          delete from decision_battery where clinic = :clinic and decision_id in (
            select id from decision where clinic = :clinic and case_id = :case_id)
          """,
          """
          delete from correction where clinic = :clinic and battery_id in (
            select id from battery where clinic = :clinic and case_id = :case_id)
          """,
          """
          delete from found where clinic = :clinic and decision_id in (
            select id from decision where clinic = :clinic and case_id = :case_id)
          """,
          // A line with a determination is filed under its decision.
          """
          delete from job_line where clinic = :clinic and case_id in (
            select cast(id as varchar(36)) from decision
            where clinic = :clinic and case_id = :case_id)
          """,
          "delete from webhook_event where clinic = :clinic and case_id = :case_id",
          "delete from determination where clinic = :clinic and case_id = :case_id",
          "delete from plan where clinic = :clinic and case_id = :case_id",
          "delete from decision where clinic = :clinic and case_id = :case_id",
          "delete from evidence_index where clinic = :clinic and case_id = :case_id",
          "delete from training_session where clinic = :clinic and case_id = :case_id",
          "delete from battery where clinic = :clinic and case_id = :case_id",
          "delete from case_facts where clinic = :clinic and case_id = :case_id",
          "delete from case_subject where clinic = :clinic and case_id = :case_id",
          "delete from job_line where clinic = :clinic and case_id = :case_id",
          "delete from knee_case where clinic = :clinic and case_id = :case_id");

  private final Handle handle;

  Erasing(Handle handle) {
    this.handle = handle;
  }

  /** The ids of the records of a case that may have an entry in the ledger. */
  public List<UUID> recordsOf(String clinic, String caseId) {
    return handle
        .createQuery(
            """
            select id from decision where clinic = :clinic and case_id = :case_id
            union all
            select id from determination where clinic = :clinic and case_id = :case_id
            union all
            select id from battery where clinic = :clinic and case_id = :case_id
            """)
        .bind("clinic", clinic)
        .bind("case_id", caseId)
        .map((row, context) -> row.getObject(1, UUID.class))
        .list();
  }

  /** Erases all records of a case, their salts and what they are found by. */
  public void eraseCase(String clinic, String caseId) {
    for (String statement : OF_A_CASE) {
      handle.createUpdate(statement).bind("clinic", clinic).bind("case_id", caseId).execute();
    }
  }
}

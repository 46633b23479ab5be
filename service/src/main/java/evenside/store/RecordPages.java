package evenside.store;

import java.util.List;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/**
 * Everything a clinic has on record, table by table and a page at a time, in the order of the ids,
 * for whoever goes through all of it. Valid inside the transaction only.
 */
public final class RecordPages {
  private final Handle handle;

  RecordPages(Handle handle) {
    this.handle = handle;
  }

  /** Every clinic that has a case, a decision or a ledger. */
  public List<String> clinics() {
    return handle
        .createQuery(
            "select clinic from knee_case union select clinic from decision"
                + " union select clinic from ledger order by clinic")
        .mapTo(String.class)
        .list();
  }

  /**
   * Revisions of cases.
   *
   * @param clinic the clinic
   * @param caseId the case of the last one before, or an empty text
   * @param revision the revision of that
   * @param limit most to give
   */
  public List<StoredCase> cases(String clinic, String caseId, int revision, int limit) {
    return handle
        .createQuery(
            """
            select clinic, case_id, revision, received_at, sha256, document
            from knee_case where clinic = :clinic and (case_id, revision) > (:case_id, :revision)
            order by clinic, case_id, revision limit :limit
            """)
        .bind("clinic", clinic)
        .bind("case_id", caseId)
        .bind("revision", revision)
        .bind("limit", limit)
        .map((row, context) -> Columns.storedCase(row))
        .list();
  }

  /** Batteries with an id after one, corrected ones too. */
  public List<StoredBattery> batteries(String clinic, UUID after, int limit) {
    return page("battery", clinic, after, limit).map((row, context) -> Columns.battery(row)).list();
  }

  /** Entries of training records with an id after one. */
  public List<KeptSession> sessions(String clinic, UUID after, int limit) {
    return page("training_session", clinic, after, limit)
        .map((row, context) -> new KeptSession(Columns.session(row), Columns.sent(row).content()))
        .list();
  }

  /**
   * An entry of a training record as it is kept.
   *
   * @param session with the advice of its day
   * @param content as it was sent; not to be changed
   */
  @SuppressWarnings("ArrayRecordComponent") // Compared by hash, never by equals.
  public record KeptSession(StoredSession session, byte[] content) {}

  /** Decisions with an id after one. */
  public List<StoredDecision> decisions(String clinic, UUID after, int limit) {
    return page("decision", clinic, after, limit)
        .map((row, context) -> Columns.decision(row))
        .list();
  }

  private Query page(String table, String clinic, UUID after, int limit) {
    return handle
        .createQuery(
            "select * from "
                + table
                + " where clinic = :clinic and id > :after order by clinic, id limit :limit")
        .bind("clinic", clinic)
        .bind("after", after)
        .bind("limit", limit);
  }
}

package evenside.store;

import evenside.store.database.Instants;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** Looks up entries of training records. Valid inside one transaction. */
public final class SessionSearch {
  private static final String COLUMNS =
      "clinic, id, case_id, record_id, content_sha256, performed_at, received_at, flagged, document";

  private static final String SENT = "id, case_id, content_sha256, performed_at, content";

  /** Names the columns that are fixed too: only then does H2 see that an index has this order. */
  private static final String ORDER = " order by clinic, case_id, performed_at desc, id desc";

  private static final String FLAGGED_ORDER =
      " order by clinic, case_id, flagged, performed_at desc, id desc";

  private final Handle handle;
  private final String clinic;

  SessionSearch(Handle handle, String clinic) {
    this.handle = handle;
    this.clinic = clinic;
  }

  /** An entry by the service's id. */
  public Optional<StoredSession> byId(UUID id) {
    return query("id = :id", "").bind("id", id).map((row, c) -> Columns.session(row)).findOne();
  }

  /** An entry by the sender's own id. */
  public Optional<StoredSession> byRecordId(String recordId) {
    return query("record_id = :record_id", "")
        .bind("record_id", recordId)
        .map((row, c) -> Columns.session(row))
        .findOne();
  }

  /** An entry as it was sent, by the service's id. */
  public Optional<SentEntry> sentById(UUID id) {
    return query(SENT, "id = :id", "").bind("id", id).map((row, c) -> Columns.sent(row)).findOne();
  }

  /** An entry as it was sent, by the sender's own id. */
  public Optional<SentEntry> sentByRecordId(String recordId) {
    return query(SENT, "record_id = :record_id", "")
        .bind("record_id", recordId)
        .map((row, c) -> Columns.sent(row))
        .findOne();
  }

  /** When the newest entry of a case up to a time was, that time included. */
  public Optional<Instant> newest(String caseId, Instant to) {
    return query(
            "performed_at", "case_id = :case_id and performed_at <= :to_at", ORDER + " limit 1")
        .bind("case_id", caseId)
        .bind("to_at", to)
        .map((row, c) -> Instants.read(row, "performed_at"))
        .findOne();
  }

  /**
   * A page of a case's entries, newest first.
   *
   * @param after the last one of the page before
   * @param limit most to give, at least 1
   */
  public List<StoredSession> page(String caseId, Optional<Position> after, int limit) {
    String older = after.isPresent() ? " and (performed_at, id) < (:after_at, :after_id)" : "";
    Query query =
        query("case_id = :case_id" + older, ORDER + " limit :limit")
            .bind("case_id", caseId)
            .bind("limit", Reading.atLeastOne(limit));
    after.ifPresent(p -> query.bind("after_at", p.at()).bind("after_id", p.id()));
    return query.map((row, c) -> Columns.session(row)).list();
  }

  /**
   * A case's entries in a span of time, newest first.
   *
   * @param from start, inclusive
   * @param to end, inclusive
   * @param limit most to give, the newest, at least 1
   */
  public List<SentEntry> between(String caseId, Instant from, Instant to, int limit) {
    return query(
            SENT,
            "case_id = :case_id and performed_at >= :from_at and performed_at <= :to_at",
            ORDER + " limit :limit")
        .bind("case_id", caseId)
        .bind("from_at", from)
        .bind("to_at", to)
        .bind("limit", Reading.atLeastOne(limit))
        .map((row, c) -> Columns.sent(row))
        .list();
  }

  /**
   * A case's flagged entries up to a time, newest first.
   *
   * @param to newest time allowed, inclusive
   * @param limit most to give, at least 1
   */
  public List<SentEntry> flagged(String caseId, Instant to, int limit) {
    return query(
            SENT,
            "case_id = :case_id and flagged = true and performed_at <= :to_at",
            FLAGGED_ORDER + " limit :limit")
        .bind("case_id", caseId)
        .bind("to_at", to)
        .bind("limit", Reading.atLeastOne(limit))
        .map((row, c) -> Columns.sent(row))
        .list();
  }

  private Query query(String condition, String order) {
    return query(COLUMNS, condition, order);
  }

  private Query query(String columns, String condition, String order) {
    String sql =
        "select " + columns + " from training_session where clinic = :clinic and " + condition;
    return handle.createQuery(sql + order).bind("clinic", clinic);
  }
}

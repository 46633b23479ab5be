package evenside.store;

import evenside.store.database.Instants;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/**
 * What a transaction can look up of what followed a decision or a battery: determinations,
 * corrections, erasures, and who read. Valid inside the transaction only.
 */
public sealed class AuditReading permits AuditWriting {
  private static final String DETERMINATIONS =
      "select clinic, id, decision_id, case_id, statement, clinician, differs, determined_at,"
          + " document from determination where clinic = :clinic and ";
  private static final String CORRECTIONS =
      "select battery_id, replaces, corrected_at from correction where clinic = :clinic and ";

  final Handle handle;

  AuditReading(Handle handle) {
    this.handle = handle;
  }

  /** A determination; empty where there is none. */
  public Optional<StoredDetermination> determination(String clinic, UUID id) {
    return query(DETERMINATIONS + "id = :id", clinic)
        .bind("id", id)
        .map((row, context) -> determination(row))
        .findOne();
  }

  /** The determinations on a decision, newest first. */
  public List<StoredDetermination> determinations(String clinic, UUID decisionId) {
    return query(
            DETERMINATIONS
                + "decision_id = :id order by clinic, decision_id, determined_at desc, id desc",
            clinic)
        .bind("id", decisionId)
        .map((row, context) -> determination(row))
        .list();
  }

  /** The correction that a battery is; empty where it replaces none. */
  public Optional<StoredCorrection> correctionBy(String clinic, UUID batteryId) {
    return correction("battery_id = :id", clinic, batteryId);
  }

  /** The correction of a battery; empty where it was not corrected. */
  public Optional<StoredCorrection> correctionOf(String clinic, UUID batteryId) {
    return correction("replaces = :id", clinic, batteryId);
  }

  /** True if some revision of some case is about this person. */
  public boolean knowsSubject(String clinic, String subject) {
    return query(
                "select count(*) from case_subject where clinic = :clinic and subject = :subject",
                clinic)
            .bind("subject", subject)
            .mapTo(Long.class)
            .one()
            .longValue()
        > 0;
  }

  private Optional<StoredCorrection> correction(String condition, String clinic, UUID id) {
    return query(CORRECTIONS + condition, clinic)
        .bind("id", id)
        .map(
            (row, context) ->
                new StoredCorrection(
                    row.getObject("battery_id", UUID.class),
                    row.getObject("replaces", UUID.class),
                    Instants.read(row, "corrected_at")))
        .findOne();
  }

  /** The decisions that looked at a battery, oldest first. */
  public List<UUID> decisionsOn(String clinic, UUID batteryId) {
    return query(
            "select decision_id from decision_battery"
                + " where clinic = :clinic and battery_id = :id order by decision_id",
            clinic)
        .bind("id", batteryId)
        .map((row, context) -> row.getObject(1, UUID.class))
        .list();
  }

  /** An erasure; empty where there is none. */
  public Optional<StoredErasure> erasure(String clinic, UUID id) {
    return query(
            "select id, erased_at, document from erasure where clinic = :clinic and id = :id",
            clinic)
        .bind("id", id)
        .map((row, context) -> erasure(row))
        .findOne();
  }

  /** A page of erasures, newest first. */
  public List<StoredErasure> erasures(String clinic, Optional<Position> after, int limit) {
    String older = after.isPresent() ? " and (erased_at, id) < (:after_at, :after_id)" : "";
    Query query =
        query(
            "select id, erased_at, document from erasure where clinic = :clinic"
                + older
                + " order by clinic, erased_at desc, id desc limit :limit",
            clinic);
    return page(query, after, limit).map((row, context) -> erasure(row)).list();
  }

  /**
   * A page of who read, newest first.
   *
   * @param decisionId which decision; absent means any
   */
  public List<Access> accesses(
      String clinic, Optional<UUID> decisionId, Optional<Position> after, int limit) {
    String one = decisionId.isPresent() ? " and decision_id = :decision_id" : "";
    String older = after.isPresent() ? " and (read_at, id) < (:after_at, :after_id)" : "";
    String order = decisionId.isPresent() ? "clinic, decision_id, " : "clinic, ";
    Query query =
        query(
            "select id, read_at, reader, action, decision_id from access_trail"
                + " where clinic = :clinic"
                + one
                + older
                + " order by "
                + order
                + "read_at desc, id desc limit :limit",
            clinic);
    decisionId.ifPresent(id -> query.bind("decision_id", id));
    return page(query, after, limit)
        .map(
            (row, context) ->
                new Access(
                    row.getObject("id", UUID.class),
                    Instants.read(row, "read_at"),
                    row.getString("reader"),
                    row.getString("action"),
                    row.getObject("decision_id", UUID.class)))
        .list();
  }

  private static Query page(Query query, Optional<Position> after, int limit) {
    after.ifPresent(p -> query.bind("after_at", p.at()).bind("after_id", p.id()));
    return query.bind("limit", limit);
  }

  private Query query(String sql, String clinic) {
    return handle.createQuery(sql).bind("clinic", clinic);
  }

  private static StoredErasure erasure(ResultSet row) throws SQLException {
    return new StoredErasure(
        row.getObject("id", UUID.class), Instants.read(row, "erased_at"), row.getBytes("document"));
  }

  private static StoredDetermination determination(ResultSet row) throws SQLException {
    return new StoredDetermination(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getObject("decision_id", UUID.class),
        row.getString("case_id"),
        row.getString("statement"),
        row.getString("clinician"),
        row.getBoolean("differs"),
        Instants.read(row, "determined_at"),
        row.getBytes("document"));
  }
}

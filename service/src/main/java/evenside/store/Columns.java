package evenside.store;

import evenside.store.database.Instants;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.StatementExceptions;
import org.jdbi.v3.core.statement.StatementExceptions.MessageRendering;

/** How rows become records. */
final class Columns {
  private Columns() {}

  static Jdbi configure(Jdbi jdbi) {
    jdbi.registerArgument(new Instants());
    jdbi.registerArrayType(String.class, "varchar");
    // By default an exception's message repeats every bound value, so clinical content.
    jdbi.configure(StatementExceptions.class, c -> c.setMessageRendering(MessageRendering.NONE));
    return jdbi;
  }

  static StoredCase storedCase(ResultSet row) throws SQLException {
    return new StoredCase(
        row.getString("clinic"),
        row.getString("case_id"),
        row.getInt("revision"),
        Instants.read(row, "received_at"),
        row.getString("sha256"),
        row.getBytes("document"));
  }

  static StoredBattery battery(ResultSet row) throws SQLException {
    return new StoredBattery(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        Optional.ofNullable(row.getString("record_id")),
        row.getString("content_sha256"),
        Instants.read(row, "performed_at"),
        Instants.read(row, "received_at"),
        row.getBytes("document"));
  }

  static StoredSession session(ResultSet row) throws SQLException {
    return new StoredSession(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        Optional.ofNullable(row.getString("record_id")),
        row.getString("content_sha256"),
        Instants.read(row, "performed_at"),
        Instants.read(row, "received_at"),
        row.getBoolean("flagged"),
        row.getBytes("document"));
  }

  static SentEntry sent(ResultSet row) throws SQLException {
    return new SentEntry(
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        row.getString("content_sha256"),
        Instants.read(row, "performed_at"),
        row.getBytes("content"));
  }

  static StoredPlan plan(ResultSet row) throws SQLException {
    return new StoredPlan(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        row.getString("milestone"),
        Instants.read(row, "adopted_at"),
        row.getBytes("document"));
  }

  static StoredDecision decision(ResultSet row) throws SQLException {
    return new StoredDecision(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        row.getString("criteria_set"),
        row.getString("criteria_version"),
        row.getString("criteria_sha256"),
        row.getString("milestone"),
        row.getString("outcome"),
        row.getObject("as_of", LocalDate.class),
        Instants.read(row, "decided_at"),
        row.getBytes("document"),
        row.getBytes("inputs"));
  }

  static Remembered remembered(ResultSet row) throws SQLException {
    return new Remembered(
        row.getString("clinic"),
        row.getString("idempotency_key"),
        row.getString("fingerprint"),
        row.getString("kind"),
        row.getString("record_id"),
        Instants.read(row, "created_at"));
  }

  static StoredCriteriaSet criteriaSet(ResultSet row) throws SQLException {
    return new StoredCriteriaSet(
        row.getString("clinic"),
        row.getString("id"),
        row.getString("version"),
        row.getString("sha256"),
        row.getBytes("document"),
        Instants.read(row, "published_at"));
  }
}

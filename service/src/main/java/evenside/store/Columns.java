package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.argument.AbstractArgumentFactory;
import org.jdbi.v3.core.argument.Argument;
import org.jdbi.v3.core.config.ConfigRegistry;
import org.jdbi.v3.core.statement.StatementExceptions;
import org.jdbi.v3.core.statement.StatementExceptions.MessageRendering;

/** How rows become records, and instants columns. */
final class Columns {
  private Columns() {}

  static Jdbi configure(Jdbi jdbi) {
    jdbi.registerArgument(new Instants());
    jdbi.registerArrayType(String.class, "varchar");
    // By default an exception's message repeats every bound value, so clinical content.
    jdbi.configure(StatementExceptions.class, c -> c.setMessageRendering(MessageRendering.NONE));
    return jdbi;
  }

  /**
   * Binds an instant as a time in UTC. JDBI's own way goes through {@link java.sql.Timestamp} and
   * the JVM's time zone, in which an hour occurs twice each autumn. Cut to the microseconds that
   * the databases keep, as they would round.
   */
  private static final class Instants extends AbstractArgumentFactory<Instant> {
    Instants() {
      super(Types.TIMESTAMP_WITH_TIMEZONE);
    }

    @Override
    protected Argument build(Instant value, ConfigRegistry config) {
      return (position, statement, context) ->
          statement.setObject(position, value.truncatedTo(MICROS).atOffset(ZoneOffset.UTC));
    }
  }

  static StoredCase storedCase(ResultSet row) throws SQLException {
    return new StoredCase(
        row.getString("clinic"),
        row.getString("case_id"),
        row.getInt("revision"),
        instant(row, "received_at"),
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
        instant(row, "performed_at"),
        instant(row, "received_at"),
        row.getBytes("document"));
  }

  static StoredSession session(ResultSet row) throws SQLException {
    return new StoredSession(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        Optional.ofNullable(row.getString("record_id")),
        row.getString("content_sha256"),
        instant(row, "performed_at"),
        instant(row, "received_at"),
        row.getBoolean("flagged"),
        row.getBytes("document"));
  }

  static SentEntry sent(ResultSet row) throws SQLException {
    return new SentEntry(
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        row.getString("content_sha256"),
        instant(row, "performed_at"),
        row.getBytes("content"),
        row.getBoolean("whole"));
  }

  static FoundEvidence evidence(ResultSet row) throws SQLException {
    return new FoundEvidence(
        row.getObject("battery_id", UUID.class),
        instant(row, "performed_at"),
        new EvidenceRow(
            row.getString("measure"),
            row.getString("aspect"),
            Optional.ofNullable(row.getString("mode")),
            Optional.ofNullable(row.getObject("speed", Double.class)),
            Optional.ofNullable(row.getObject("angle", Double.class)),
            Optional.ofNullable(row.getString("context")),
            number(row)));
  }

  private static Optional<FiledNumber> number(ResultSet row) throws SQLException {
    Double amount = row.getObject("amount", Double.class);
    return amount == null
        ? Optional.empty()
        : Optional.of(
            new FiledNumber(
                amount,
                row.getString("unit"),
                row.getString("way"),
                row.getObject("performed_on", LocalDate.class)));
  }

  static StoredPlan plan(ResultSet row) throws SQLException {
    return new StoredPlan(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getString("case_id"),
        row.getString("milestone"),
        instant(row, "adopted_at"),
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
        instant(row, "decided_at"),
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
        instant(row, "created_at"));
  }

  static StoredCriteriaSet criteriaSet(ResultSet row) throws SQLException {
    return new StoredCriteriaSet(
        row.getString("clinic"),
        row.getString("id"),
        row.getString("version"),
        row.getString("sha256"),
        row.getBytes("document"),
        instant(row, "published_at"));
  }

  static Instant instant(ResultSet row, String column) throws SQLException {
    return row.getObject(column, OffsetDateTime.class).toInstant();
  }
}

package evenside.store.database;

import static java.time.temporal.ChronoUnit.MICROS;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import org.jdbi.v3.core.argument.AbstractArgumentFactory;
import org.jdbi.v3.core.argument.Argument;
import org.jdbi.v3.core.config.ConfigRegistry;

/**
 * How an instant becomes a column and a column an instant.
 *
 * <p>Bound as a time in UTC. JDBI's own way goes through {@link java.sql.Timestamp} and the JVM's
 * time zone, in which an hour occurs twice each autumn. Cut to the microseconds that the databases
 * keep, as they would round.
 */
public final class Instants extends AbstractArgumentFactory<Instant> {
  /** To be registered with JDBI. */
  public Instants() {
    super(Types.TIMESTAMP_WITH_TIMEZONE);
  }

  @Override
  protected Argument build(Instant value, ConfigRegistry config) {
    return (position, statement, context) ->
        statement.setObject(position, value.truncatedTo(MICROS).atOffset(ZoneOffset.UTC));
  }

  /** The instant in a column that is never null. */
  public static Instant read(ResultSet row, String column) throws SQLException {
    return row.getObject(column, OffsetDateTime.class).toInstant();
  }
}

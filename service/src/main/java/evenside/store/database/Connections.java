package evenside.store.database;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.time.Duration;

/** The connections that transactions take turns on. */
public final class Connections {
  /** For a row that another transaction is about to add. */
  private static final Duration LONGEST_WAIT = Duration.ofSeconds(10);

  /** For a connection: a database that is away is reported while the sender still waits. */
  private static final Duration LONGEST_WAIT_FOR_CONNECTION = Duration.ofSeconds(5);

  private static final Duration LONGEST_VALIDATION = Duration.ofSeconds(1);

  private Connections() {}

  /** A pool of the size that the settings name. */
  public static HikariDataSource pool(StoreSettings settings, Database database) {
    HikariConfig config = new HikariConfig();
    config.setPoolName("store");
    config.setJdbcUrl(settings.url());
    config.setUsername(settings.user());
    config.setPassword(settings.password());
    config.setMaximumPoolSize(settings.poolSize());
    config.setConnectionTimeout(LONGEST_WAIT_FOR_CONNECTION.toMillis());
    config.setValidationTimeout(LONGEST_VALIDATION.toMillis());
    database.driverProperties().forEach(config::addDataSourceProperty);
    config.setTransactionIsolation(database.snapshotIsolation());
    config.setConnectionInitSql("set lock_timeout = " + LONGEST_WAIT.toMillis());
    // Auto-commit stays at its default, true: JDBI takes "off" for someone else's transaction and
    // would not commit, and the pool would then roll back, without an error (jdbi issue 2663).
    try {
      return new HikariDataSource(config);
    } catch (RuntimeException e) {
      throw new StoreException("cannot connect to the " + settings.place(), e);
    }
  }
}

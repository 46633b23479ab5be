package evenside.store;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The record on disk.
 *
 * <p>What {@link #write} returned is committed and synced: it outlives a killed process and a power
 * cut. What {@link #read} returned is too, so that nothing is ever shown that could be taken back.
 * A transaction sees one state of all tables. Safe for use by many threads.
 *
 * <p>A thread inside {@code read} or {@code write} must not call either again: it would hold one
 * connection while waiting for another.
 */
public final class Store implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Store.class);

  /** For a connection, and for a row that another transaction is about to add. */
  private static final Duration LONGEST_WAIT = Duration.ofSeconds(10);

  private final Database database;
  private final GroupSync groupSync;
  private final HikariDataSource pool;
  private final Jdbi jdbi;

  private Store(Database database, HikariDataSource pool) {
    this.database = database;
    this.groupSync = new GroupSync(database::sync);
    this.pool = pool;
    this.jdbi = Columns.configure(Jdbi.create(pool));
  }

  /**
   * Opens the store, and makes or updates its tables.
   *
   * @param settings where it is
   * @return the store, to be closed
   * @throws StoreException if it cannot be opened, if another process has it open, or if it may
   *     lose acknowledged records and that was not allowed
   */
  public static Store open(StoreSettings settings) {
    Database database =
        H2Database.understands(settings.url())
            ? H2Database.open(settings)
            : PostgresDatabase.open(settings);
    try {
      checkDurability(database, settings);
      migrate(settings);
      // The tables are on disk before the first record is.
      database.sync();
      return new Store(database, pool(settings, database));
    } catch (RuntimeException e) {
      database.close();
      throw e;
    }
  }

  private static void checkDurability(Database database, StoreSettings settings) {
    List<String> weaknesses;
    try {
      weaknesses = database.weaknesses();
    } catch (SQLException e) {
      throw new StoreException("cannot ask the " + settings.place() + " for its settings", e);
    }
    if (weaknesses.isEmpty()) {
      return;
    }
    String what =
        "the "
            + settings.place()
            + " may lose acknowledged records: "
            + String.join("; ", weaknesses);
    if (!settings.allowWeakDurability()) {
      throw new StoreException(what + "; or allow weak durability by name");
    }
    LOG.warn("{}; allowed by name", what);
  }

  private static HikariDataSource pool(StoreSettings settings, Database database) {
    HikariConfig config = new HikariConfig();
    config.setPoolName("store");
    config.setJdbcUrl(settings.url());
    config.setUsername(settings.user());
    config.setPassword(settings.password());
    config.setMaximumPoolSize(settings.poolSize());
    config.setConnectionTimeout(LONGEST_WAIT.toMillis());
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

  private static void migrate(StoreSettings settings) {
    try {
      // Not from the pool: Flyway holds two connections at once, and the pool may have one.
      Flyway.configure()
          .dataSource(settings.url(), settings.user(), settings.password())
          .locations("classpath:evenside/store/migration")
          .loggers("slf4j")
          .load()
          .migrate();
    } catch (FlywayException e) {
      throw new StoreException(
          "cannot make or update the tables of the " + settings.place() + ": " + e.getMessage(), e);
    }
  }

  /**
   * Runs one transaction that may add rows. Returns after it is committed and on disk; if anything
   * is thrown, it was rolled back as a whole.
   *
   * @param work what to do; must not keep what it is given
   * @param <T> what it answers
   * @return the answer of the work
   * @throws StoreConflict if it met something that is already there
   * @throws StoreException if the database failed
   */
  public <T> T write(Function<Writing, T> work) {
    T result;
    try (Handle handle = jdbi.open()) {
      result = inTransaction(handle, () -> work.apply(new Writing(handle)));
      groupSync.announce();
      try {
        handle.commit();
      } catch (RuntimeException e) {
        groupSync.withdraw();
        throw e;
      }
    } catch (StoreConflict e) {
      groupSync.settle();
      throw e;
    } catch (JdbiException e) {
      throw Failures.explain(e);
    }
    groupSync.committed();
    return result;
  }

  /**
   * Runs one transaction that only reads, on one state of all tables.
   *
   * @param work what to do; must not keep what it is given
   * @param <T> what it answers
   * @return the answer of the work
   * @throws StoreException if the database failed
   */
  public <T> T read(Function<Reading, T> work) {
    T result;
    try (Handle handle = jdbi.open()) {
      result = inTransaction(handle, () -> work.apply(new Reading(handle)));
      handle.commit();
    } catch (JdbiException e) {
      throw Failures.explain(e);
    }
    groupSync.settle();
    return result;
  }

  private static <T> T inTransaction(Handle handle, Supplier<T> work) {
    handle.begin();
    try {
      return work.get();
    } catch (Throwable e) {
      rollBack(handle, e);
      throw e;
    }
  }

  private static void rollBack(Handle handle, Throwable reason) {
    try {
      handle.rollback();
    } catch (JdbiException e) {
      reason.addSuppressed(e);
    }
  }

  /** Waits for no one: close it after the last request. */
  @Override
  public void close() {
    pool.close();
    database.close();
  }
}

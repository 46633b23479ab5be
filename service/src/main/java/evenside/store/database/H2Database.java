package evenside.store.database;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.h2.api.ErrorCode;
import org.h2.engine.SessionLocal;
import org.h2.jdbc.JdbcConnection;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.transaction.TransactionIsolationLevel;

/**
 * H2, for one process and its data folder.
 *
 * <p>Commits stay in memory until {@link #sync} writes and syncs all of them together, so that many
 * share not only the wait for the disk but also what H2 writes about its file with each piece it
 * adds.
 */
final class H2Database implements Database {
  /** H2's own value while it closes: it writes when told to, and no thread writes by the clock. */
  private static final int WHEN_TOLD = -1;

  private final Connection connection;
  private final boolean writesWhenTold;

  private H2Database(Connection connection, boolean writesWhenTold) {
    this.connection = connection;
    this.writesWhenTold = writesWhenTold;
  }

  static boolean understands(String url) {
    return url.startsWith("jdbc:h2:");
  }

  static H2Database open(StoreSettings settings) {
    settings.folder().ifPresent(DataFolder::make);
    try {
      Connection connection =
          DriverManager.getConnection(settings.url(), settings.user(), settings.password());
      return new H2Database(connection, writeWhenTold(connection, settings.url()));
    } catch (SQLException e) {
      // H2 holds a lock on its file for as long as it is open.
      if (e.getErrorCode() == ErrorCode.DATABASE_ALREADY_OPEN_1) {
        throw new StoreInUse("another Evenside is using this " + settings.place(), e);
      }
      throw new StoreException("cannot open the " + settings.place() + ": " + e.getMessage(), e);
    }
  }

  /**
   * There is no setting for this. With WRITE_DELAY=0 each commit writes by itself; with more a
   * thread writes, and a sync does not wait for what that thread has begun. A URL with the setting
   * is left as it is, as each connection sets it again.
   */
  private static boolean writeWhenTold(Connection connection, String url) throws SQLException {
    String options = url.replaceFirst("^[^;]*", "").toUpperCase(Locale.ROOT);
    boolean set = options.contains("WRITE_DELAY");
    if (!set
        && connection.unwrap(JdbcConnection.class).getSession() instanceof SessionLocal session) {
      session.getDatabase().getStore().getMvStore().setAutoCommitDelay(WHEN_TOLD);
      return true;
    }
    return false;
  }

  @Override
  public List<String> weaknesses() throws SQLException {
    List<String> weaknesses = new ArrayList<>();
    try (Statement statement = connection.createStatement()) {
      if (!writesWhenTold) {
        writeDelay(statement).ifPresent(weaknesses::add);
      }
      try (ResultSet path = statement.executeQuery("select database_path()")) {
        if (!path.next() || path.getString(1) == null) {
          weaknesses.add("H2 keeps the database in memory only: name a file or a data folder");
        }
      }
    }
    return weaknesses;
  }

  private static Optional<String> writeDelay(Statement statement) throws SQLException {
    // The setting is listed once per place it was set at, in the case it was written in.
    try (ResultSet delays =
        statement.executeQuery(
            "select setting_value from information_schema.settings"
                + " where lower(setting_name) = 'write_delay' and setting_value <> '0'")) {
      return delays.next()
          ? Optional.of(
              "H2 writes commits only every "
                  + delays.getString(1)
                  + " ms: take WRITE_DELAY out of the URL, or set it to 0")
          : Optional.empty();
    }
  }

  /** H2 calls its snapshot isolation by this name too. */
  @Override
  public String snapshotIsolation() {
    return "TRANSACTION_SERIALIZABLE";
  }

  /** The pool sets the connection back when it takes it. */
  @Override
  public void seeEachCommit(Handle handle) {
    handle.setTransactionIsolationLevel(TransactionIsolationLevel.READ_COMMITTED);
  }

  @Override
  public Map<String, String> driverProperties() {
    return Map.of();
  }

  /** Hands the commit to the operating system; {@link #sync} is what waits for the disk. */
  @Override
  public void commitUnhurried(Handle handle) {
    handle.commit();
    handle.execute("checkpoint");
  }

  @Override
  public void sync() {
    try (Statement statement = connection.createStatement()) {
      statement.execute("checkpoint sync");
    } catch (SQLException e) {
      throw new StoreException("H2 could not sync its file: " + e.getMessage(), e);
    }
  }

  @Override
  public void backUp(Path file) {
    try (PreparedStatement statement = connection.prepareStatement("backup to ?")) {
      statement.setString(1, file.toString());
      statement.execute();
    } catch (SQLException e) {
      throw new StoreException("H2 could not write the copy " + file + ": " + e.getMessage(), e);
    }
  }

  @Override
  public boolean rewrites() {
    return true;
  }

  @Override
  public void rewrite() {
    try (Statement statement = connection.createStatement()) {
      statement.execute("shutdown compact");
    } catch (SQLException e) {
      throw new StoreException("H2 could not write its file anew: " + e.getMessage(), e);
    }
  }

  @Override
  public void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new StoreException("H2 could not close its file: " + e.getMessage(), e);
    }
  }
}

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
import java.util.Map;
import java.util.Optional;
import org.h2.api.ErrorCode;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.transaction.TransactionIsolationLevel;

/** H2, for one process and its data folder. */
final class H2Database implements Database {
  private final Connection connection;

  private H2Database(Connection connection) {
    this.connection = connection;
  }

  static boolean understands(String url) {
    return url.startsWith("jdbc:h2:");
  }

  static H2Database open(StoreSettings settings) {
    settings.folder().ifPresent(DataFolder::make);
    try {
      return new H2Database(
          DriverManager.getConnection(settings.url(), settings.user(), settings.password()));
    } catch (SQLException e) {
      // H2 holds a lock on its file for as long as it is open.
      if (e.getErrorCode() == ErrorCode.DATABASE_ALREADY_OPEN_1) {
        throw new StoreInUse("another Evenside is using this " + settings.place(), e);
      }
      throw new StoreException("cannot open the " + settings.place() + ": " + e.getMessage(), e);
    }
  }

  @Override
  public List<String> weaknesses() throws SQLException {
    List<String> weaknesses = new ArrayList<>();
    try (Statement statement = connection.createStatement()) {
      // The setting is listed once per place it was set at, in the case it was written in.
      try (ResultSet delays =
          statement.executeQuery(
              "select setting_value from information_schema.settings"
                  + " where lower(setting_name) = 'write_delay' and setting_value <> '0'")) {
        if (delays.next()) {
          weaknesses.add(
              "H2 writes commits only every "
                  + delays.getString(1)
                  + " ms: add ;WRITE_DELAY=0 to the URL");
        }
      }
      try (ResultSet path = statement.executeQuery("select database_path()")) {
        if (!path.next() || path.getString(1) == null) {
          weaknesses.add("H2 keeps the database in memory only: name a file or a data folder");
        }
      }
    }
    return weaknesses;
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

  /** {@link #sync} is what waits for the disk. */
  @Override
  public Optional<String> unhurried() {
    return Optional.empty();
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

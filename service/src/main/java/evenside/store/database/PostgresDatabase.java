package evenside.store.database;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jdbi.v3.core.Handle;

/** PostgreSQL, for any number of processes. */
final class PostgresDatabase implements Database {
  private final Connection connection;

  private PostgresDatabase(Connection connection) {
    this.connection = connection;
  }

  static boolean understands(String url) {
    return url.startsWith("jdbc:postgresql:");
  }

  static PostgresDatabase open(StoreSettings settings) {
    try {
      return new PostgresDatabase(
          DriverManager.getConnection(settings.url(), settings.user(), settings.password()));
    } catch (SQLException e) {
      throw new StoreException("cannot reach the " + settings.place() + ": " + e.getMessage(), e);
    }
  }

  @Override
  public List<String> weaknesses() throws SQLException {
    List<String> weaknesses = new ArrayList<>();
    if (show("synchronous_commit").equals("off")) {
      weaknesses.add("PostgreSQL has synchronous_commit = off: set it to on");
    }
    if (show("fsync").equals("off")) {
      weaknesses.add("PostgreSQL has fsync = off: set it to on");
    }
    if (show("full_page_writes").equals("off")) {
      weaknesses.add("PostgreSQL has full_page_writes = off: set it to on");
    }
    return weaknesses;
  }

  private String show(String setting) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet value = statement.executeQuery("show " + setting)) {
      value.next();
      return value.getString(1);
    }
  }

  /** In PostgreSQL "repeatable read" is snapshot isolation. */
  @Override
  public String snapshotIsolation() {
    return "TRANSACTION_REPEATABLE_READ";
  }

  /** For this transaction alone: a change of the connection would take three calls. */
  @Override
  public void seeEachCommit(Handle handle) {
    handle.execute("set transaction isolation level read committed");
  }

  /**
   * A server that went away without a word is given up after half a minute, one that does not
   * answer a call at all after three seconds. What the server says in detail on an error is left
   * out: it repeats the values of the row, so clinical content. Rows of one batch go in one
   * statement.
   */
  @Override
  public Map<String, String> driverProperties() {
    return Map.of(
        "connectTimeout", "3",
        "loginTimeout", "3",
        "socketTimeout", "30",
        "tcpKeepAlive", "true",
        "logServerErrorDetail", "false",
        "reWriteBatchedInserts", "true");
  }

  @Override
  public void commitUnhurried(Handle handle) {
    handle.execute("set local synchronous_commit = off");
    handle.commit();
  }

  /** Nothing to do: the commit returned after its log was synced, grouped by the server. */
  @Override
  public void sync() {}

  @Override
  public void backUp(Path file) {
    throw new StoreException(
        "a database server is backed up by its own tools (pg_dump, pg_basebackup), not by this");
  }

  /** Its files are the server's, and so are its log and its backups. */
  @Override
  public boolean rewrites() {
    return false;
  }

  @Override
  public void rewrite() {}

  @Override
  public void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new StoreException("PostgreSQL connection could not be closed: " + e.getMessage(), e);
    }
  }
}

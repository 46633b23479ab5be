package evenside.store;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

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

  /** Nothing to do: the commit returned after its log was synced, grouped by the server. */
  @Override
  public void sync() {}

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

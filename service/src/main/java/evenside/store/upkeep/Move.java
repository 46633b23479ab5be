package evenside.store.upkeep;

import evenside.store.database.Database;
import evenside.store.database.Databases;
import evenside.store.database.StoreException;
import evenside.store.database.StoreSettings;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Copies a whole store into an empty one, in one transaction of the target: what was broken off
 * left nothing there. Every table is read back from the target and hashed before the commit, and
 * must be what was read from the source.
 */
public final class Move implements AutoCloseable {
  private static final int ROWS_AT_ONCE = 500;

  private final Connection source;
  private final Connection target;
  private final boolean fromPostgres;
  private final boolean toPostgres;

  private Move(StoreSettings from, StoreSettings to) throws SQLException {
    this.fromPostgres = from.isPostgres();
    this.toPostgres = to.isPostgres();
    // One state of all tables, by the name that each database has for it.
    this.source =
        connect(
            from,
            fromPostgres
                ? Connection.TRANSACTION_REPEATABLE_READ
                : Connection.TRANSACTION_SERIALIZABLE);
    // Must see what was committed before it had the tables to itself.
    this.target = connect(to, Connection.TRANSACTION_READ_COMMITTED);
  }

  private static Connection connect(StoreSettings settings, int isolation) throws SQLException {
    Connection connection =
        DriverManager.getConnection(settings.url(), settings.user(), settings.password());
    connection.setAutoCommit(false);
    connection.setTransactionIsolation(isolation);
    return connection;
  }

  /**
   * One table as it was copied.
   *
   * @param table its name
   * @param rows how many rows it has, in both stores
   * @param sha256 of all values of all rows in the order of the key, in both stores
   */
  public record Copied(String table, long rows, String sha256) {}

  /**
   * Copies every table.
   *
   * @param from the store to read; nothing may write to it meanwhile
   * @param to the store to fill, whose tables are made if they are not there
   * @param progress is given each table when it is copied and compared
   * @throws StoreException if the target has a record already, if a table did not come out equal,
   *     or a database failed; the target is empty then
   */
  public static List<Copied> copy(StoreSettings from, StoreSettings to, Consumer<Copied> progress) {
    // Opening both makes the tables, brings both to one version, and refuses weak durability.
    Databases.open(from).close();
    try (Database fresh = Databases.open(to)) {
      List<Copied> copied;
      try (Move transfer = new Move(from, to)) {
        copied = transfer.run(progress);
      } catch (SQLException e) {
        throw new StoreException("the copy was broken off, the target is as before: " + e, e);
      }
      fresh.sync();
      return copied;
    }
  }

  private List<Copied> run(Consumer<Copied> progress) throws SQLException {
    List<TableShape> tables = TableShape.all(source);
    demandSameTables(tables, TableShape.all(target));
    takeAlone(tables);
    for (TableShape table : tables) {
      demandEmpty(table);
    }
    List<Copied> all = new ArrayList<>();
    for (TableShape table : tables) {
      Copied copied = copy(table);
      Copied readBack = read(table, target, toPostgres, null);
      if (!readBack.equals(copied)) {
        throw new StoreException("table " + table.name() + " differs after copying; nothing kept");
      }
      progress.accept(copied);
      all.add(copied);
    }
    target.commit();
    return all;
  }

  private static void demandSameTables(List<TableShape> source, List<TableShape> target) {
    if (!source.equals(target)) {
      throw new StoreException("the two databases do not have the same tables");
    }
  }

  /** Keeps a service out of the target that somebody starts meanwhile. */
  private void takeAlone(List<TableShape> tables) throws SQLException {
    if (!toPostgres) {
      return;
    }
    try (Statement statement = target.createStatement()) {
      for (TableShape table : tables) {
        statement.execute("lock table " + table.name() + " in access exclusive mode");
      }
    }
  }

  private void demandEmpty(TableShape table) throws SQLException {
    try (Statement statement = target.createStatement();
        ResultSet rows = statement.executeQuery("select 1 from " + table.name() + " limit 1")) {
      if (rows.next()) {
        throw new StoreException(
            "the target has a record already, in its table " + table.name() + "; it must be empty");
      }
    }
  }

  private Copied copy(TableShape table) throws SQLException {
    try (PreparedStatement insert = target.prepareStatement(table.insert())) {
      return read(table, source, fromPostgres, insert);
    }
  }

  /** Hashes a table, and hands its rows on where there is somewhere to. */
  private static Copied read(
      TableShape table, Connection connection, boolean postgres, @Nullable PreparedStatement insert)
      throws SQLException {
    MessageDigest digest = sha256();
    List<Class<?>> types = List.copyOf(table.columns().values());
    long count = 0;
    try (Statement statement = connection.createStatement()) {
      statement.setFetchSize(ROWS_AT_ONCE);
      try (ResultSet rows = statement.executeQuery(table.select(postgres))) {
        while (rows.next()) {
          digest.update(row(rows, types, insert));
          count++;
          if (insert != null) {
            insert.addBatch();
            if (count % ROWS_AT_ONCE == 0) {
              insert.executeBatch();
            }
          }
        }
      }
    }
    if (insert != null) {
      insert.executeBatch();
    }
    return new Copied(table.name(), count, HexFormat.of().formatHex(digest.digest()));
  }

  /** The values of a row as bytes, each after its length, so that no two rows have the same. */
  private static byte[] row(
      ResultSet rows, List<Class<?>> types, @Nullable PreparedStatement insert)
      throws SQLException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      for (int i = 1; i <= types.size(); i++) {
        Object value = rows.getObject(i, types.get(i - 1));
        if (insert != null) {
          insert.setObject(i, value);
        }
        if (value == null) {
          out.writeInt(-1);
        } else {
          byte[] one = bytes(value);
          out.writeInt(one.length);
          out.write(one);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static byte[] bytes(Object value) {
    if (value instanceof byte[] raw) {
      return raw;
    }
    Object plain = value instanceof OffsetDateTime time ? time.toInstant() : value;
    return plain.toString().getBytes(StandardCharsets.UTF_8);
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** Takes back what was not committed. */
  @Override
  public void close() throws SQLException {
    try (source;
        target) {
      target.rollback();
      source.rollback();
    }
  }
}

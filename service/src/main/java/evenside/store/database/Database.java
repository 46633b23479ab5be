package evenside.store.database;

import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import org.jdbi.v3.core.Handle;

/** What differs between the databases. Owns one connection of its own. */
public interface Database extends AutoCloseable {
  /**
   * What may lose an acknowledged record.
   *
   * @return one sentence each, with what to set instead; empty where nothing may
   */
  List<String> weaknesses() throws SQLException;

  /**
   * The isolation under which a transaction sees one state of all tables, from its first statement
   * to its last. A decision may not read half of a battery.
   *
   * @return name of a constant of {@link java.sql.Connection}
   */
  String snapshotIsolation();

  /**
   * Lets each statement of a transaction that has just begun see what was committed before it
   * started.
   */
  void seeEachCommit(Handle handle);

  /** What the driver is told about each connection of the pool, where the URL says nothing else. */
  Map<String, String> driverProperties();

  /** Commits without a wait for the disk, and so that the commit outlives this process. */
  void commitUnhurried(Handle handle);

  /** Brings every finished commit to the disk, where the commit itself has not done that. */
  void sync();

  /**
   * Writes a copy of the database as it is now to a file, while others use it.
   *
   * @throws StoreException if it cannot be written, or the database has no such copy
   */
  void backUp(Path file);

  /** Whether {@link #rewrite} does something. */
  boolean rewrites();

  /** Writes its files anew with nothing of removed rows in them, and is closed then. */
  void rewrite();

  @Override
  void close();
}

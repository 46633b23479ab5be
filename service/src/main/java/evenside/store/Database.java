package evenside.store;

import java.sql.SQLException;
import java.util.List;

/** What differs between the databases. Owns one connection of its own. */
interface Database extends AutoCloseable {
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

  /** Brings every finished commit to the disk, where the commit itself has not done that. */
  void sync();

  /** Whether {@link #rewrite} does something. */
  boolean rewrites();

  /** Writes its files anew with nothing of removed rows in them, and is closed then. */
  void rewrite();

  @Override
  void close();
}

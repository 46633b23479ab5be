package evenside.store.database;

import java.sql.SQLException;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Opens the database that settings name. */
public final class Databases {
  private static final Logger LOG = LoggerFactory.getLogger(Databases.class);

  private Databases() {}

  /**
   * Opens a database that keeps what is acknowledged, and makes or updates its tables.
   *
   * @throws StoreInUse if another process has it open
   * @throws StoreException if it cannot be opened, or if it may lose acknowledged records and that
   *     was not allowed
   */
  public static Database open(StoreSettings settings) {
    Database database = connect(settings);
    try {
      checkDurability(database, settings);
      Migrations.run(settings);
      // The tables are on disk before the first record is.
      database.sync();
      return database;
    } catch (RuntimeException e) {
      database.close();
      throw e;
    }
  }

  /**
   * Opens the database that the settings name, as it is.
   *
   * @throws StoreInUse if another process has it open
   * @throws StoreException if it cannot be opened
   */
  public static Database connect(StoreSettings settings) {
    return H2Database.understands(settings.url())
        ? H2Database.open(settings)
        : PostgresDatabase.open(settings);
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
      throw new StoreException(
          what + "; the service does not start on it unless told so (weak-durability)");
    }
    LOG.warn("{}; allowed by weak-durability", what);
  }
}

package evenside.store.database;

import java.nio.file.Path;
import java.util.Optional;

/**
 * Where the store is and how it is reached.
 *
 * @param folder the data folder of an H2 store; absent for a database server
 * @param url JDBC URL, {@code jdbc:h2:} or {@code jdbc:postgresql:}
 * @param user database user
 * @param password its password
 * @param poolSize most connections at once, 1 to 100
 * @param allowWeakDurability whether to open a database that may lose acknowledged records
 */
public record StoreSettings(
    Optional<Path> folder,
    String url,
    String user,
    String password,
    int poolSize,
    boolean allowWeakDurability) {
  private static final int DEFAULT_POOL_SIZE = 10;

  /**
   * What H2 needs to keep a record and to read the same SQL as PostgreSQL. When it writes is said
   * in {@link H2Database}. DB_CLOSE_ON_EXIT=FALSE: the store is closed after the last request, not
   * by a hook that races with it. TRACE_LEVEL_FILE=0: H2 would write what went wrong, with values
   * that it could not take, into a file beside the store.
   */
  private static final String H2_OPTIONS =
      ";MODE=PostgreSQL;DATABASE_TO_LOWER=TRUE;DEFAULT_NULL_ORDERING=HIGH"
          + ";DB_CLOSE_ON_EXIT=FALSE;QUERY_CACHE_SIZE=64;TRACE_LEVEL_FILE=0";

  /** Checks what can be checked without a database. */
  public StoreSettings {
    if (!H2Database.understands(url) && !PostgresDatabase.understands(url)) {
      // A mistyped URL may hold a password anywhere, so it is not repeated.
      throw new IllegalArgumentException(
          "database URL must start with jdbc:postgresql: or jdbc:h2:");
    }
    if (poolSize < 1 || poolSize > 100) {
      throw new IllegalArgumentException("pool size must be 1 to 100, got " + poolSize);
    }
  }

  /**
   * An H2 file {@code evenside} in a folder, which is made if it is not there.
   *
   * @param folder the data folder
   * @return the settings
   */
  public static StoreSettings inFolder(Path folder) {
    Path absolute = folder.toAbsolutePath().normalize();
    if (absolute.toString().indexOf(';') >= 0) {
      throw new IllegalArgumentException("data folder must have no ';' in its path: " + absolute);
    }
    return new StoreSettings(
        Optional.of(absolute),
        "jdbc:h2:file:" + absolute.resolve("evenside") + H2_OPTIONS,
        "evenside",
        "",
        DEFAULT_POOL_SIZE,
        false);
  }

  /**
   * A database named by its URL.
   *
   * @param url JDBC URL, {@code jdbc:h2:} or {@code jdbc:postgresql:}
   * @param user database user
   * @param password its password
   * @return the settings
   */
  public static StoreSettings at(String url, String user, String password) {
    return new StoreSettings(Optional.empty(), url, user, password, DEFAULT_POOL_SIZE, false);
  }

  /**
   * The same with another pool size.
   *
   * @param connections most connections at once, 1 to 100
   * @return the settings
   */
  public StoreSettings withPoolSize(int connections) {
    return new StoreSettings(folder, url, user, password, connections, allowWeakDurability);
  }

  /**
   * The same, but opening also a database that may lose acknowledged records. For trials and tests.
   *
   * @return the settings
   */
  public StoreSettings allowingWeakDurability() {
    return new StoreSettings(folder, url, user, password, poolSize, true);
  }

  /** Whether it is PostgreSQL, else H2. */
  public boolean isPostgres() {
    return PostgresDatabase.understands(url);
  }

  /** The settings without the password, nor the URL's options, which may hold one. */
  @Override
  public String toString() {
    return "StoreSettings[" + place() + ", user=" + user + ", poolSize=" + poolSize + "]";
  }

  /** Where the store is, in words for a message. */
  String place() {
    return folder
        .map(path -> "data folder " + path)
        .orElseGet(() -> "database " + url.replaceFirst("(?<=//)[^/@]*@", "").split("[;?]", 2)[0]);
  }
}

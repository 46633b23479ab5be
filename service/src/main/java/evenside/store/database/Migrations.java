package evenside.store.database;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.configuration.FluentConfiguration;
import org.flywaydb.core.api.exception.FlywayValidateException;

/**
 * Makes and updates the tables. A database whose tables are exactly those of this version is left
 * alone after one query: at most starts there is nothing to do, and Flyway takes a tenth of a start
 * to find that out. Whatever is not exactly so is Flyway's to judge.
 */
final class Migrations {
  /** In the order of their versions, from 1 without a gap. A test compares with the folder. */
  static final List<String> FILES =
      List.of(
          "V1__tables.sql",
          "V2__sessions.sql",
          "V3__ledger.sql",
          "V4__trends.sql",
          "V5__client_keys.sql",
          "V6__jobs.sql",
          "V7__webhooks.sql");

  private static final String FOLDER = "evenside/store/migration";

  private Migrations() {}

  /**
   * One row of Flyway's history.
   *
   * @param version of the file
   * @param checksum of its lines
   * @param success whether it ran to its end
   */
  private record Applied(String version, int checksum, boolean success) {}

  /**
   * Makes or updates the tables, if there is anything to do.
   *
   * @throws StoreException if they cannot be made, or are not what this version made them
   */
  static void run(StoreSettings settings) {
    if (areApplied(settings)) {
      return;
    }
    try {
      // Not from the pool: Flyway holds two connections at once, and the pool may have one.
      flyway(settings).load().migrate();
    } catch (FlywayValidateException e) {
      throw new StoreException(
          "the %s was made by another build of Evenside, whose tables are others, and is left as it is: %s"
              .formatted(settings.place(), e.getMessage()),
          e);
    } catch (FlywayException e) {
      throw new StoreException(
          "cannot make or update the tables of the " + settings.place() + ": " + e.getMessage(), e);
    }
  }

  static FluentConfiguration flyway(StoreSettings settings) {
    return Flyway.configure()
        .dataSource(settings.url(), settings.user(), settings.password())
        .locations("classpath:" + FOLDER)
        .loggers("slf4j");
  }

  /** Whether each file ran, as it is now, and nothing else did. */
  static boolean areApplied(StoreSettings settings) {
    try {
      return applied(settings).equals(wanted());
    } catch (SQLException noHistory) {
      return false;
    }
  }

  private static List<Applied> wanted() {
    List<Applied> wanted = new ArrayList<>();
    for (int i = 0; i < FILES.size(); i++) {
      wanted.add(new Applied(String.valueOf(i + 1), checksum(FILES.get(i)), true));
    }
    return wanted;
  }

  /** On H2 there is one more row, of rank -1, which says only that the history was made. */
  private static List<Applied> applied(StoreSettings settings) throws SQLException {
    List<Applied> applied = new ArrayList<>();
    try (Connection connection =
            DriverManager.getConnection(settings.url(), settings.user(), settings.password());
        Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "select version, checksum, success from flyway_schema_history"
                    + " where installed_rank > 0 order by installed_rank")) {
      while (rows.next()) {
        applied.add(new Applied(rows.getString(1), rows.getInt(2), rows.getBoolean(3)));
      }
    }
    return applied;
  }

  /** As Flyway reckons it: CRC-32 over the lines without their ends. */
  private static int checksum(String file) {
    CRC32 sum = new CRC32();
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(open(file), StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        sum.update(line.getBytes(StandardCharsets.UTF_8));
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file, e);
    }
    return (int) sum.getValue();
  }

  private static InputStream open(String file) {
    InputStream in = Migrations.class.getResourceAsStream("/" + FOLDER + "/" + file);
    if (in == null) {
      throw new IllegalStateException(file + " is not in the jar");
    }
    return in;
  }
}

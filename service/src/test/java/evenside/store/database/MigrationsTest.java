package evenside.store.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.store.PostgresServer;
import evenside.store.Store;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Flyway is left out only where it would find nothing to do: its own history, written by Flyway
 * itself, is what the look at the tables is compared with.
 */
class MigrationsTest {
  @TempDir Path folder;

  @Test
  void files_areAllOfTheFolder() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("src/main/resources/evenside/store/migration"))) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .containsExactlyInAnyOrderElementsOf(Migrations.FILES);
    }
    for (int i = 0; i < Migrations.FILES.size(); i++) {
      assertThat(Migrations.FILES.get(i)).startsWith("V" + (i + 1) + "__");
    }
  }

  @Test
  void tablesThatFlywayMade_areLeftAlone() {
    StoreSettings settings = StoreSettings.inFolder(folder);
    assertThat(Migrations.areApplied(settings)).isFalse();
    Store.open(settings).close();
    assertThat(Migrations.areApplied(settings)).isTrue();
  }

  @Test
  void tablesThatFlywayMadeOnPostgres_areLeftAlone() {
    try (PostgresServer server = PostgresServer.start()) {
      StoreSettings settings = server.settings().allowingWeakDurability();
      assertThat(Migrations.areApplied(settings)).isFalse();
      Store.open(settings).close();
      assertThat(Migrations.areApplied(settings)).isTrue();
    }
  }

  @Test
  void tablesOfAnOtherVersion_areFlywaysToJudge() throws SQLException {
    StoreSettings settings = StoreSettings.inFolder(folder);
    Store.open(settings).close();
    change(settings, "update flyway_schema_history set checksum = 1 where version = '2'");
    assertThat(Migrations.areApplied(settings)).isFalse();
    assertThatThrownBy(() -> Store.open(settings))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining("made by another build")
        .hasMessageContaining("checksum");
  }

  @Test
  void tablesOfALaterVersion_areFlywaysToJudge() throws SQLException {
    StoreSettings settings = StoreSettings.inFolder(folder);
    Store.open(settings).close();
    change(
        settings,
        "insert into flyway_schema_history select 999, '999', description, type, script, checksum,"
            + " installed_by, installed_on, execution_time, success from flyway_schema_history"
            + " where version = '1'");
    assertThat(Migrations.areApplied(settings)).isFalse();
  }

  @Test
  void fileThatDidNotRunToItsEnd_isFlywaysToJudge() throws SQLException {
    StoreSettings settings = StoreSettings.inFolder(folder);
    Store.open(settings).close();
    change(settings, "update flyway_schema_history set success = false where version = '3'");
    assertThat(Migrations.areApplied(settings)).isFalse();
    assertThatThrownBy(() -> Store.open(settings)).isInstanceOf(StoreException.class);
  }

  private static void change(StoreSettings settings, String sql) throws SQLException {
    try (Connection connection =
        DriverManager.getConnection(settings.url(), settings.user(), settings.password())) {
      assertThat(connection.createStatement().executeUpdate(sql)).isEqualTo(1);
    }
  }
}

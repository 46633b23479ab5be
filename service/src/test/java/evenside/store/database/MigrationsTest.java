package evenside.store.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.store.PostgresServer;
import evenside.store.Samples;
import evenside.store.SentEntry;
import evenside.store.Store;
import evenside.store.cohort.CohortFilter;
import evenside.store.cohort.FindingCount;
import evenside.store.cohort.FindingRow;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Flyway is left out only where it would find nothing to do: its own history, written by Flyway
 * itself, is what the look at the tables is compared with.
 */
class MigrationsTest {
  private static final String SHA = "0".repeat(64);

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

  @Test
  void recordOfAnEarlierVersion_isStillRead() throws SQLException {
    earlierRecord_isStillRead(StoreSettings.inFolder(folder));
  }

  @Test
  void recordOfAnEarlierVersionOnPostgres_isStillRead() throws SQLException {
    try (PostgresServer server = PostgresServer.start()) {
      earlierRecord_isStillRead(server.settings().allowingWeakDurability());
    }
  }

  private static void earlierRecord_isStillRead(StoreSettings settings) throws SQLException {
    if (settings.folder().isPresent()) {
      H2Database.open(settings).close();
    }
    Migrations.flyway(settings).target("7").load().migrate();
    UUID id = Samples.newId();
    change(settings, "insert into knee_case values ('c', 'k', 1, now(), '%s', '')".formatted(SHA));
    change(
        settings,
        "insert into case_facts values ('c', 'k', 1, 'female', 2001, 'hamstring-tendon',"
            + " '2026-01-05')");
    change(
        settings,
        ("insert into decision values ('c', '%s', 'k', 's', '1', '%s', 'm', 'not-met',"
                + " '2026-06-01', now(), '', '')")
            .formatted(id, SHA));
    String row = "insert into finding values ('c', '%s', ".formatted(id);
    change(settings, row + "0, '*', 'not-met', true, false)");
    change(settings, row + "1, 'hop', 'not-met', true, true)");
    change(settings, row + "2, 'pain', 'undetermined', false, false)");
    change(
        settings,
        ("insert into training_session values ('c', '%s', 'k', null, '%s', now(), now(), false,"
                + " '')")
            .formatted(id, SHA));

    try (Store store = Store.open(settings)) {
      LocalDate day = LocalDate.parse("2026-06-01");
      CohortFilter.Decided decided = new CohortFilter.Decided("s", "1", day, day);
      List<FindingCount> counts =
          store.read(r -> r.cohort("c", CohortFilter.EVERYBODY).findings(decided));
      assertThat(counts)
          .containsExactlyInAnyOrder(
              new FindingCount(new FindingRow("*", "not-met", true, false), 1),
              new FindingCount(new FindingRow("hop", "not-met", true, true), 1),
              new FindingCount(new FindingRow("pain", "undetermined", false, false), 1));
      SentEntry entry = store.read(r -> r.sessions("c").sentById(id)).orElseThrow();
      assertThat(entry.whole()).isTrue();
    }
  }

  private static void change(StoreSettings settings, String sql) throws SQLException {
    try (Connection connection =
        DriverManager.getConnection(settings.url(), settings.user(), settings.password())) {
      assertThat(connection.createStatement().executeUpdate(sql)).isEqualTo(1);
    }
  }
}

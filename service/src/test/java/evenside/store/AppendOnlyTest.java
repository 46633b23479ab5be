package evenside.store;

import static evenside.store.Samples.NOON;
import static java.util.regex.Pattern.CASE_INSENSITIVE;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.cohort.FindingRow;
import evenside.store.database.StoreSettings;
import evenside.store.evidence.EvidenceRow;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Nothing recorded is altered. */
class AppendOnlyTest {
  /** Every statement by which SQL, H2 or PostgreSQL changes or removes a row, column or table. */
  private static final Pattern CHANGES_ROWS =
      Pattern.compile(
          "\\b(update\\s+\\w+\\s+set|do\\s+update|delete\\s+from|merge\\s+into|replace\\s+into"
              + "|truncate|drop\\s+(table|column|schema)|alter\\s+table)\\b",
          CASE_INSENSITIVE);

  private static final List<String> TABLES =
      List.of(
          "knee_case",
          "case_facts",
          "battery",
          "evidence_index",
          "training_session",
          "decision",
          "found",
          "plan",
          "idempotency",
          "criteria_set");

  @Test
  void pattern_findsWhatItLooksFor() {
    assertThat("UPDATE battery\n set x = 1").containsPattern(CHANGES_ROWS);
    assertThat("delete from battery").containsPattern(CHANGES_ROWS);
    assertThat("on conflict (id) do update set x = 1").containsPattern(CHANGES_ROWS);
  }

  @Test
  void noStatementOfTheStore_changesOrRemovesARow() throws IOException {
    List<Path> files = new ArrayList<>(files("src/main/java/evenside/store", ".java"));
    files.addAll(files("src/main/resources/evenside/store/migration", ".sql"));

    assertThat(files).hasSizeGreaterThan(10);
    Set<String> queues = Set.of("Erasing.java", "Outbox.java", "JobWriting.java");
    files.removeIf(file -> queues.contains(file.getFileName().toString()));
    for (Path file : files) {
      String text = Files.readString(file);
      assertThat(text).as("%s", file).doesNotContainPattern(CHANGES_ROWS);
    }
  }

  /** What is still to be told is a queue and no record; nothing else is touched there. */
  @Test
  void outbox_changesRowsOfItsOwnTableOnly() throws IOException {
    String outbox = Files.readString(Path.of("src/main/java/evenside/store/work/Outbox.java"));
    assertThat(outbox).containsPattern(CHANGES_ROWS);
    assertThat(outbox)
        .doesNotContainPattern("(insert into|delete from|update)\\s+(?!webhook_event|skip)\\w");
  }

  /** Erasing a case removes rows; never one of a ledger, whose salts are not in it. */
  @Test
  void erasing_removesNoRowOfALedger() throws IOException {
    String erasing = Files.readString(Path.of("src/main/java/evenside/store/Erasing.java"));
    assertThat(erasing).containsPattern(CHANGES_ROWS);
    assertThat(erasing)
        .doesNotContainPattern("(from|into|update)\\s+ledger(_entry|_checkpoint|_verifier|\\s)");
  }

  /** Bulk work is no record: what is removed there is of its own tables. */
  @Test
  void jobs_removeNoRowOfARecord() throws IOException {
    String jobs = Files.readString(Path.of("src/main/java/evenside/store/work/JobWriting.java"));
    assertThat(jobs)
        .doesNotContainPattern("(?i)delete\\s+from\\s+(?!job|\")")
        .doesNotContainPattern("(?i)(update\\s+\\w+\\s+set|truncate|merge\\s+into)")
        .contains("List.of(\"job_line\", \"job_result\", \"job_turn\")");
  }

  private static List<Path> files(String folder, String suffix) throws IOException {
    try (Stream<Path> all = Files.walk(Path.of(folder))) {
      return all.filter(path -> path.toString().endsWith(suffix)).toList();
    }
  }

  @Test
  void rowsThatWereThere_areThereUnchanged_afterEveryKindOfWrite(@TempDir Path folder)
      throws SQLException {
    StoreSettings settings = StoreSettings.inFolder(folder);
    try (Store store = Store.open(settings)) {
      writeEverything(store, 1);
      Set<String> before = rows(settings);
      assertThat(before).hasSize(TABLES.size());

      writeEverything(store, 2);

      assertThat(rows(settings)).hasSize(2 * TABLES.size()).containsAll(before);
    }
  }

  private static void writeEverything(Store store, int revision) {
    UUID id = Samples.newId();
    store.<UUID>write(
        w -> {
          w.remember(Samples.remembered("c", "key-" + revision, id));
          StoredCase kneeCase = Samples.kneeCase("c", "k-1", revision);
          w.cases().insert(kneeCase);
          w.cases().insertFacts(kneeCase, Samples.facts());
          w.insertBattery(
              Samples.battery("c", "k-1", NOON, Optional.of("r-" + revision)),
              List.of(EvidenceRow.of("body-mass", "value")));
          StoredSession session = Samples.session("c", "k-1", NOON, Optional.of("r-" + revision));
          w.insertSession(session, Samples.content(session));
          StoredDecision decision = Samples.decision("c", "k-1", NOON);
          w.insertDecision(decision);
          w.insertFindings(
              decision, List.of(new FindingRow(FindingRow.WHOLE_SET, "met", true, false)));
          w.insertPlan(Samples.plan("c", "k-1", NOON));
          w.insertCriteriaSet(Samples.criteriaSet("c", "own", "1." + revision));
          return id;
        });
  }

  /** Every column of every row as text, read beside the store. */
  private static Set<String> rows(StoreSettings settings) throws SQLException {
    Set<String> rows = new HashSet<>();
    try (Connection connection =
        DriverManager.getConnection(settings.url(), settings.user(), settings.password())) {
      for (String table : TABLES) {
        try (var statement = connection.createStatement();
            ResultSet row = statement.executeQuery("select * from " + table)) {
          while (row.next()) {
            StringBuilder text = new StringBuilder(table);
            for (int i = 1; i <= row.getMetaData().getColumnCount(); i++) {
              text.append('|').append(row.getString(i));
            }
            rows.add(text.toString());
          }
        }
      }
    }
    return rows;
  }
}

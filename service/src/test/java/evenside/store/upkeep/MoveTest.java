package evenside.store.upkeep;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.ledger.LedgerAudit;
import evenside.note.SignedNote;
import evenside.readiness.ProvenRecord;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import evenside.store.PostgresServer;
import evenside.store.Store;
import evenside.store.database.StoreException;
import evenside.store.database.StoreSettings;
import evenside.training.Diary;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.node.ObjectNode;

/** A record is carried to another database, or back from a copy, and nothing of it has changed. */
class MoveTest {
  private static final List<String> DOCUMENTS =
      List.of(
          "knee_case.document",
          "battery.document",
          "training_session.document",
          "training_session.content",
          "decision.document",
          "determination.document");

  @TempDir private static Path folder;
  @AutoClose private static PostgresServer server;

  /** A clinic's record in H2, and what its auditor kept. */
  private static Path home;

  private static SignedNote early;
  private static SignedNote late;

  @BeforeAll
  static void record() throws Exception {
    server = PostgresServer.start();
    home = Files.createDirectory(folder.resolve("home"));
    try (ProvenRecord record = new ProvenRecord(home)) {
      Recorded decision = record.decided();
      early = checkpoint(record);
      record
          .service
          .determinations()
          .add(
              ProvenRecord.CLINIC,
              "gym-software",
              decision.id(),
              ProvenRecord.determination("deferred", ""),
              Optional.of(new IdempotencyKey("d", "0".repeat(64))));
      record.putCase("second case");
      record.addBattery("second case");
      record.decide("second case");
      for (String caseId : List.of(ProvenRecord.CASE, "second case")) {
        ObjectNode run = Diary.run(Diary.DAY_0, 1).put("recordId", caseId.replace(' ', '-'));
        record.service.sessions().add(ProvenRecord.CLINIC, caseId, run, Optional.empty());
      }
      late = checkpoint(record);
    }
  }

  private static SignedNote checkpoint(ProvenRecord record) {
    return record.ledger.proofs(ProvenRecord.CLINIC).checkpoint().orElseThrow();
  }

  private static StoreSettings emptyDatabase(String name) throws SQLException {
    StoreSettings base = server.settings();
    try (Connection connection =
            DriverManager.getConnection(base.url(), base.user(), base.password());
        Statement statement = connection.createStatement()) {
      statement.execute("create database " + name);
    }
    String url = base.url().replaceFirst("/postgres$", "/" + name);
    return StoreSettings.at(url, base.user(), base.password()).allowingWeakDurability();
  }

  private static List<String> audit(StoreSettings where, SignedNote... kept) {
    try (Store store = Store.open(where)) {
      return LedgerAudit.of(store, ProvenRecord.CLINIC, Optional.empty(), List.of(kept));
    }
  }

  private static List<Move.Copied> move(StoreSettings from, StoreSettings to) {
    return Move.copy(from, to, copied -> {});
  }

  /** Asked of the databases themselves, past the program: each counts and hashes its documents. */
  private static TreeMap<String, String> documents(StoreSettings where, String hash)
      throws SQLException {
    TreeMap<String, String> all = new TreeMap<>();
    try (Connection connection =
            DriverManager.getConnection(where.url(), where.user(), where.password());
        Statement statement = connection.createStatement()) {
      for (String place : DOCUMENTS) {
        String table = place.substring(0, place.indexOf('.'));
        try (ResultSet rows =
            statement.executeQuery(
                "select " + hash.formatted(place) + " from " + table + " order by 1")) {
          StringBuilder hashes = new StringBuilder();
          while (rows.next()) {
            hashes.append(rows.getString(1)).append('\n');
          }
          all.put(place, hashes.toString());
        }
      }
    }
    return all;
  }

  @Test
  void move_toPostgresAndBack_keepsEveryRow_everyDocument_everyCheckpoint() throws Exception {
    StoreSettings h2 = StoreSettings.inFolder(home);
    StoreSettings postgres = emptyDatabase("moved");
    List<Move.Copied> there = move(h2, postgres);
    StoreSettings back = StoreSettings.inFolder(Files.createDirectory(folder.resolve("back")));
    assertThat(move(postgres, back)).isEqualTo(there);
    assertThat(there).hasSizeGreaterThan(15);
    assertThat(there).filteredOn(one -> one.table().equals("decision")).hasSize(1);
    assertThat(there)
        .filteredOn(one -> one.table().equals("ledger_entry"))
        .allMatch(one -> one.rows() >= 4);
    assertThat(documents(postgres, "encode(sha256(%s), 'hex')"))
        .isEqualTo(documents(h2, "rawtohex(hash('SHA-256', %s))"))
        .isEqualTo(documents(back, "rawtohex(hash('SHA-256', %s))"));
    for (StoreSettings each : List.of(h2, postgres, back)) {
      assertThat(audit(each, early, late)).isEmpty();
    }
  }

  @Test
  void movedRecord_goesOnWhereItStopped() throws Exception {
    Path copy = Files.createDirectory(folder.resolve("goes-on"));
    StoreSettings postgres = emptyDatabase("goes_on");
    try (ProvenRecord before = new ProvenRecord(copy)) {
      before.decided();
    }
    SignedNote kept;
    try (ProvenRecord before = new ProvenRecord(home)) {
      // The key is needed to go on; this one has another and takes no entries.
      assertThat(before.ledger.trouble()).isNotEmpty();
    }
    ProvenRecord first = new ProvenRecord(Files.createDirectory(folder.resolve("x")));
    first.decided();
    kept = checkpoint(first);
    first.close();
    move(StoreSettings.inFolder(first.folder), postgres);
    try (ProvenRecord after = new ProvenRecord(first.folder, postgres, first.key)) {
      assertThat(after.ledger.trouble()).isEmpty();
      assertThat(after.decide(ProvenRecord.CASE).receipt()).isPresent();
    }
    assertThat(audit(postgres, kept)).isEmpty();
  }

  @Test
  void targetWithARecord_isRefused() throws Exception {
    StoreSettings target = emptyDatabase("taken");
    move(StoreSettings.inFolder(home), target);
    assertThatThrownBy(() -> move(StoreSettings.inFolder(home), target))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining("it must be empty");
  }

  @Test
  void moveThatIsBrokenOff_leavesNothing_andCanBeDoneAgain() throws Exception {
    StoreSettings target = emptyDatabase("broken_off");
    List<String> seen = new ArrayList<>();
    assertThatThrownBy(
            () ->
                Move.copy(
                    StoreSettings.inFolder(home),
                    target,
                    copied -> {
                      seen.add(copied.table());
                      if (copied.table().equals("ledger_entry")) {
                        throw new IllegalStateException("pulled the plug");
                      }
                    }))
        .hasMessage("pulled the plug");
    assertThat(seen).contains("decision", "battery");
    assertThat(documents(target, "count(*)").values()).containsOnly("0\n");
    move(StoreSettings.inFolder(home), target);
    assertThat(audit(target, early, late)).isEmpty();
  }

  @Test
  void copyWhileOthersWrite_isRestored_withItsProof() throws Exception {
    Path running = Files.createDirectory(folder.resolve("running"));
    Path file = folder.resolve("copy.zip");
    SignedNote kept;
    try (ProvenRecord record = new ProvenRecord(running)) {
      record.decided();
      Thread writer =
          new Thread(
              () -> {
                for (int i = 0; i < 40; i++) {
                  record.decide(ProvenRecord.CASE);
                }
              });
      writer.start();
      record.decide(ProvenRecord.CASE);
      kept = checkpoint(record);
      record.store.backUp(file);
      writer.join();
      assertThatThrownBy(() -> record.store.backUp(file)).hasMessageContaining("already");
    }
    Path restored = folder.resolve("restored");
    BackupFile.restore(file, restored);
    if (Files.getFileStore(restored).supportsFileAttributeView("posix")) {
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(restored)))
          .isEqualTo("rwx------");
    }
    assertThat(audit(StoreSettings.inFolder(restored), kept)).isEmpty();
    assertThatThrownBy(() -> BackupFile.restore(file, restored))
        .hasMessageContaining("has a record already");
  }

  @Test
  void olderCopy_isFoundOut_byTheAuditor_andByTheCheckpointsBesideIt() throws Exception {
    Path running = Files.createDirectory(folder.resolve("rolled-back"));
    Path file = folder.resolve("older.zip");
    SignedNote kept;
    try (ProvenRecord record = new ProvenRecord(running)) {
      record.decided();
      record.store.backUp(file);
      record.decide(ProvenRecord.CASE);
      kept = checkpoint(record);
    }
    Files.delete(running.resolve("evenside.mv.db"));
    BackupFile.restore(file, running);
    StoreSettings where = StoreSettings.inFolder(running);
    assertThat(audit(where, kept)).singleElement().asString().contains("the database is behind");
    try (Store store = Store.open(where)) {
      assertThat(LedgerAudit.of(store, ProvenRecord.CLINIC, Optional.of(running), List.of()))
          .singleElement()
          .asString()
          .contains("the database is behind");
    }
    assertThat(audit(where)).as("the database alone cannot know").isEmpty();
  }

  @Test
  void checkpointOfAnotherLedger_isNamed() {
    SignedNote other =
        new evenside.note.Checkpoint("elsewhere.example/x", checkpointHead())
            .sign(List.of(evenside.note.SigningKey.generate()));
    assertThat(audit(StoreSettings.inFolder(home), other))
        .singleElement()
        .asString()
        .contains("elsewhere.example/x");
  }

  private static evenside.merkle.TreeHead checkpointHead() {
    return evenside.note.Checkpoint.parse(early.text()).head();
  }

  @Test
  void serverIsBackedUpByItsOwnTools() throws Exception {
    try (Store store = Store.open(emptyDatabase("own_tools"))) {
      assertThatThrownBy(() -> store.backUp(folder.resolve("no.zip")))
          .hasMessageContaining("pg_dump");
    }
    assertThat(folder.resolve("no.zip")).doesNotExist();
    assertThat(folder.resolve("no.zip.part")).doesNotExist();
  }

  @Test
  void fileThatIsNoCopy_isRefused() throws Exception {
    Path file = Files.writeString(folder.resolve("no-copy"), "not a zip");
    assertThatThrownBy(() -> BackupFile.restore(file, folder.resolve("nowhere")))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining("no copy of a record");
    assertThat(folder.resolve("nowhere")).doesNotExist();
  }
}

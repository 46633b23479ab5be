package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What somebody does behind the program's back is found at the next start, and named. */
class TamperTest {
  @TempDir private Path folder;

  private void assertRefused(Bench bench, String... parts) {
    bench.start();
    assertThat(bench.ledger.trouble()).singleElement().asString().contains(parts);
    assertThatThrownBy(bench::append).isInstanceOf(LedgerRefusal.class);
  }

  @Test
  void droppedTail_isFound() throws SQLException {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(10);
      bench.tamper("delete from ledger_entry where entry_index >= 9");
      assertRefused(bench, "the database is behind: it has 9 entries", "covers 12");
      assertThat(bench.ledger.proofs("c").checkpoint()).as("reading goes on").isPresent();
    }
  }

  @Test
  void droppedTail_withItsCheckpoints_isFoundByTheSideFile() throws SQLException {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(10);
      bench.tamper(
          "delete from ledger_entry where entry_index >= 9",
          "delete from ledger_checkpoint where tree_size > 9");
      assertRefused(bench, "the database is behind", "side file covers 12");
    }
  }

  @Test
  void restoredOlderFile_isFoundByTheSideFile() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(5);
      bench.stop();
      Path database = folder.resolve("evenside.mv.db");
      Path yesterday = folder.resolve("yesterday");
      Files.copy(database, yesterday);
      bench.start();
      bench.append(5);
      bench.stop();
      Files.copy(yesterday, database, StandardCopyOption.REPLACE_EXISTING);
      assertRefused(bench, "the database is behind: it has 7 entries", "side file covers 12");
    }
  }

  @Test
  void swappedRows_areFound() throws SQLException {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(10);
      bench.tamper(
          "update ledger_entry set entry_index = 1004 where entry_index = 4",
          "update ledger_entry set entry_index = 4 where entry_index = 5",
          "update ledger_entry set entry_index = 5 where entry_index = 1004");
      assertRefused(bench, "entry 4 was altered");
    }
  }

  @Test
  void missingRow_isFound() throws SQLException {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(10);
      bench.tamper("delete from ledger_entry where entry_index = 6");
      assertRefused(bench, "entry 6 was altered: it is missing");
    }
  }

  @ParameterizedTest
  @CsvSource({
    "1, layout version",
    "2, needs a reference",
    "5, ",
    "12, another id",
    "30, ",
    "50, hash",
    "80, hash",
    "138, hash"
  })
  void alteredByte_isFound_andItsEntryNamed(int at, String reason) throws SQLException {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(10);
      bench.tamper(
          """
          update ledger_entry set entry = cast(
            substring(entry from 1 for %1$d - 1)
            || case when substring(entry from %1$d for 1) = X'07' then X'06' else X'07' end
            || substring(entry from %1$d + 1) as varbinary)
          where entry_index = 7
          """
              .formatted(at));
      assertRefused(bench, "entry 7 was altered");
      if (reason != null) {
        assertThat(bench.ledger.trouble().get(0)).contains(reason);
      }
    }
  }

  @Test
  void entryRewritten_withAllHashesThatFollow_isFoundByTheSignedRoot() throws SQLException {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(1);
      Forger.forgeLast(bench);
      assertRefused(bench, "the first 3 entries are not those of the checkpoint");
    }
  }

  @Test
  void checkpointOfAnotherKey_isFound() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(3);
      bench.stop();
      Path side = folder.resolve("c.1.checkpoints");
      String note = Files.readString(side);
      String forged =
          new evenside.note.Checkpoint(
                  "ledger.evenside.example/c",
                  new evenside.merkle.TreeHead(2, evenside.merkle.Hash.sha256(new byte[1])))
              .sign(java.util.List.of(evenside.note.SigningKey.generate()))
              .toText();
      Files.writeString(side, note + forged);
      assertRefused(bench, "side file is not signed by a key of this ledger");
    }
  }

  @Test
  void tailDroppedWhileItRuns_isFoundAtTheNextAppend() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(3);
      bench.store.<Boolean>write(
          writing -> {
            Forger.dropLast(writing);
            return true;
          });
      assertThatThrownBy(bench::append)
          .isInstanceOf(LedgerRefusal.class)
          .hasMessageContaining("no longer holds what was signed");
      assertThat(bench.ledger.trouble()).hasSize(1);
    }
  }

  @Test
  void replacedAndLostDocuments_areNamedByTheAudit() throws SQLException {
    try (Bench bench = new Bench(folder).start()) {
      bench.append(6);
      assertThat(LedgerAudit.of(bench.store, "c")).isEmpty();
      String id = "(select entry_id from ledger_entry where entry_index = %d)";
      bench.tamper(
          "update ledger_criteria set document = X'7b7d'",
          "update decision set document = X'7b7d' where id = " + id.formatted(3),
          "update decision set inputs = X'7b7d' where id = " + id.formatted(4),
          "delete from decision where id = " + id.formatted(5),
          "delete from ledger_salt where entry_id = " + id.formatted(6));
      bench.start();
      String name = "ledger.evenside.example/c: entry ";
      assertThat(LedgerAudit.of(bench.store, "c"))
          .contains(
              name + "1: its criteria set was replaced by another",
              name + "2: its criteria set was replaced by another",
              name + "3: the decision was replaced by another",
              name + "4: the inputs was replaced by another",
              name + "5: the decision is lost, and no erasure says why",
              name + "6: the inputs is lost, and no erasure says why")
          .hasSize(1 + 6 + 1 + 1 + 2 + 2);
    }
  }
}

package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import evenside.ledger.KeyReplacement.Why;
import evenside.ledger.Proofs.PublishedKey;
import evenside.merkle.Frontier;
import evenside.merkle.TreeHead;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two clinics whose ledgers are signed by one key, which others know now, or which is lost. */
class KeyReplacementTest {
  @TempDir private Path folder;
  private Path file;
  private SigningKey old;

  @BeforeEach
  void makeKey() {
    file = folder.resolve("ledger.key");
    old = KeyFiles.create(file);
  }

  private Bench start(SigningKey key) {
    Bench bench = new Bench(folder);
    bench.keys = List.of(key);
    return bench.start();
  }

  private static SignedNote recorded(Bench bench, String clinic) {
    return SignedNote.parse(bench.append(clinic).receipt().checkpoint());
  }

  private List<VerifierKey> replace(Bench bench, SignedNote... witnessed) {
    return replace(bench, Why.KNOWN, LedgerSettings.DEFAULT_NAME, witnessed);
  }

  private List<VerifierKey> replace(Bench bench, Why why, String name, SignedNote... witnessed) {
    return KeyReplacement.run(
        bench.store, folder, name, file, why, List.of(witnessed), InstantSource.system());
  }

  private List<String> files() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .map(path -> path.getFileName().toString())
          .filter(name -> name.startsWith("ledger"))
          .map(name -> name.replaceFirst("-[0-9a-f]{8}$", "-ID"))
          .sorted()
          .toList();
    }
  }

  private void assertGoesOn() throws IOException {
    assertThat(files()).containsExactly("ledger.key", "ledger.key.compromised-ID");
    assertNewKeySigns();
  }

  private void assertNewKeySigns() {
    SigningKey fresh = KeyFiles.read(file);
    assertThat(fresh.toPem()).isNotEqualTo(old.toPem());
    try (Bench bench = start(fresh)) {
      assertThat(bench.ledger.trouble()).isEmpty();
      for (String clinic : List.of("c", "d")) {
        assertThat(bench.append(clinic).receipt().index()).isEqualTo(2);
        assertThat(LedgerAudit.of(bench.store, clinic)).isEmpty();
      }
    }
  }

  @Test
  void eachClinic_goesOnInANewLedger_signedByANewKey() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote earlier = recorded(bench, "c");
      SignedNote c = recorded(bench, "c");
      SignedNote d = recorded(bench, "d");

      List<VerifierKey> keys = replace(bench, c, earlier, d);

      assertThat(keys)
          .extracting(VerifierKey::name)
          .containsExactly("ledger.evenside.example/c/2", "ledger.evenside.example/d/2");
      assertThat(bench.ledger.proofs("c").keys())
          .extracting(key -> key.key().name(), PublishedKey::signs)
          .containsExactly(
              tuple("ledger.evenside.example/c", false),
              tuple("ledger.evenside.example/c/2", true));
    }
    assertGoesOn();
  }

  @Test
  void replicaThatWasNotStopped_signsNothingMore_andSaysSo() {
    try (Bench bench = start(old)) {
      replace(bench, recorded(bench, "c"), recorded(bench, "d"));

      assertThatThrownBy(() -> bench.append("c")).hasMessageContaining("its key was replaced");
      assertThat(LedgerAudit.of(bench.store, "c")).isEmpty();
      assertThat(bench.ledger.trouble().toString()).contains("its key was replaced");
    }
  }

  @Test
  void clinicWhoseCheckpointIsMissingOrForged_isNamed_andNothingIsChanged() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      SignedNote d = recorded(bench, "d");
      SignedNote forged = Checkpoint.parse(d.text()).sign(List.of(SigningKey.generate()));

      assertThatThrownBy(() -> replace(bench, c)).hasMessageContaining("ledger.evenside.example/d");
      assertThatThrownBy(() -> replace(bench, c, forged)).hasMessageContaining("not signed by");
      assertThat(files()).containsExactly("ledger.key");
      assertThat(bench.store.read(reading -> reading.ledger().all()).size()).isEqualTo(2);
      assertThat(bench.append("c").receipt().index()).isEqualTo(3);
    }
  }

  @Test
  void checkpointOfAnotherRecord_andAnOverlapThatHasNotEnded_areRefused() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      SignedNote stranger =
          SignedNote.parse(c.toText().replace("example/c\n", "example/elsewhere\n"));
      assertThatThrownBy(() -> replace(bench, c, stranger)).hasMessageContaining("not here");
      Files.createFile(folder.resolve("ledger-previous.key"));
      assertThatThrownBy(() -> replace(bench, c)).hasMessageContaining("remove it first");
      Files.delete(folder.resolve("ledger-previous.key"));
      assertThatThrownBy(() -> replace(bench, Why.KNOWN, "another.name", c))
          .hasMessageContaining("the name in use makes it another.name/c");
    }
  }

  @Test
  void fileOfAnotherKey_isNotTakenForTheirs() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      Files.move(file, folder.resolve("theirs"));
      KeyFiles.create(file);

      assertThatThrownBy(() -> replace(bench, c))
          .hasMessageContaining("signed by another key than that in")
          .hasMessageContaining("ledger.key");
      assertThat(files()).containsExactly("ledger.key");
    }
  }

  @Test
  void lostKey_isReplaced_onceItsFileIsGone() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      SignedNote d = recorded(bench, "d");
      assertThatThrownBy(() -> replace(bench, Why.LOST, LedgerSettings.DEFAULT_NAME, c, d))
          .hasMessageContaining("the key is not lost");
      Files.delete(file);
      assertThatThrownBy(() -> replace(bench, c, d)).hasMessageContaining("there is no key file");
      assertThat(files()).isEmpty();
    }
    try (Store store = Store.open(StoreSettings.inFolder(folder))) {
      List<VerifierKey> keys =
          KeyReplacement.run(
              store,
              folder,
              LedgerSettings.DEFAULT_NAME,
              file,
              Why.LOST,
              List.of(),
              InstantSource.system());
      assertThat(keys).hasSize(2);
    }
    assertThat(files()).containsExactly("ledger.key");
    assertNewKeySigns();
  }

  @Test
  void lostKey_goesOnFromWhatItSignedLast_ifThatHoldsWhatWasKept() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote kept = recorded(bench, "c");
      SignedNote last = recorded(bench, "c");
      recorded(bench, "d");
      Files.delete(file);
      SignedNote forged = Checkpoint.parse(kept.text()).sign(List.of(SigningKey.generate()));
      assertThatThrownBy(() -> replace(bench, Why.LOST, LedgerSettings.DEFAULT_NAME, forged))
          .hasMessageContaining("not signed by");
      bench.ledger.close();

      replace(bench, Why.LOST, LedgerSettings.DEFAULT_NAME, kept);

      Entry first =
          Entry.parse(bench.store.read(r -> r.ledger().entries("c", 2, 0, 1)).get(0).entry());
      assertThat(first.document()).isEqualTo(Checkpoint.parse(last.text()).head().root());
    }
  }

  @Test
  void replacementThatWasBrokenOff_isEndedByDoingItAgain() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      SignedNote d = recorded(bench, "d");
      SigningKey fresh = KeyFiles.create(folder.resolve("ledger.key.next"));
      LedgerSettings settings =
          new LedgerSettings(folder, LedgerSettings.DEFAULT_NAME, List.of(fresh));
      Continuation.start(bench.store, "c", settings, c, InstantSource.system());

      assertThat(replace(bench, c, d)).hasSize(2);
    }
    assertGoesOn();
  }

  @Test
  void newKeyThatLacksItsPlaceOnly_isPutThere() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      SignedNote d = recorded(bench, "d");
      replace(bench, c, d);
      Files.move(file, folder.resolve("ledger.key.next"));

      replace(bench, c, d);
    }
    assertGoesOn();
  }

  @Test
  void lastTurnBeforeAKill_staysProvable() throws Exception {
    Bench bench = start(old);
    SignedNote c = recorded(bench, "c");
    UUID last = bench.append("c").id();
    // A kill leaves the checkpoint of the last turn beside the database alone.
    bench.tamper("delete from ledger_checkpoint where tree_size > 3");
    try (Store store = Store.open(bench.where)) {
      run(store, Why.KNOWN, file, c);

      Proofs.Proved proved =
          store.read(reading -> Proofs.within(reading.ledger(), "c").proof(last)).orElseThrow();
      assertThat(proved.ledger()).isEqualTo(1);
    }
  }

  @Test
  void checkpointOfNoEntries_isRefused_andDoingItAgainAfterTheEndSaysSo() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      TreeHead nothing = Frontier.empty().head();
      SignedNote empty = new Checkpoint("ledger.evenside.example/c", nothing).sign(List.of(old));
      assertThatThrownBy(() -> replace(bench, empty)).hasMessageContaining("covers no entry");
      assertThat(files()).containsExactly("ledger.key");

      replace(bench, c);
      assertThatThrownBy(() -> replace(bench, c)).hasMessageContaining("ledger-key show");
    }
  }

  @Test
  void slipInTheNameOfTheFile_isNoLoss() {
    Bench bench = start(old);
    bench.append("c");
    bench.stop();
    try (Store store = Store.open(bench.where)) {
      assertThatThrownBy(() -> run(store, Why.LOST, folder.resolve("slip.key")))
          .hasMessageContaining("the key is not lost: there is a key file " + file);
    }
  }

  @Test
  void databaseFromBeforeAReplacement_isFoundOutAtTheStart() throws IOException {
    try (Bench bench = start(old)) {
      bench.append("c");
      // What the service leaves beside the database once it has signed in the new ledger.
      Files.createFile(folder.resolve("c.2.checkpoints"));
      bench.restart();
      assertThatThrownBy(() -> bench.append("c"))
          .hasMessageContaining("the database is behind")
          .hasMessageContaining("c.2.checkpoints");
    }
  }

  private void run(Store store, Why why, Path key, SignedNote... witnessed) {
    KeyReplacement.run(
        store,
        folder,
        LedgerSettings.DEFAULT_NAME,
        key,
        why,
        List.of(witnessed),
        InstantSource.system());
  }
}

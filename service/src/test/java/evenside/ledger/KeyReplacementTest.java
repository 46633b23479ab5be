package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.note.SignedNote;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two clinics whose ledgers are signed by one key, which others know now. */
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
    return KeyReplacement.run(
        bench.store, LedgerSettings.DEFAULT_NAME, file, List.of(witnessed), InstantSource.system());
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
    SigningKey fresh = KeyFiles.read(file);
    assertThat(fresh.toPem()).isNotEqualTo(old.toPem());
    assertThat(files()).containsExactly("ledger.key", "ledger.key.compromised-ID");
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
    }
    assertGoesOn();
  }

  @Test
  void clinicWhoseCheckpointIsMissingOrForged_isNamed_andNothingIsChanged() throws IOException {
    try (Bench bench = start(old)) {
      SignedNote c = recorded(bench, "c");
      SignedNote d = recorded(bench, "d");
      SignedNote forged =
          evenside.note.Checkpoint.parse(d.text()).sign(List.of(SigningKey.generate()));

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
      assertThatThrownBy(
              () ->
                  KeyReplacement.run(
                      bench.store, "another.name", file, List.of(c), InstantSource.system()))
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
}

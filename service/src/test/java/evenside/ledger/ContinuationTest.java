package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.note.SignedNote;
import evenside.note.SigningKey;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ContinuationTest {
  @Test
  void newLedger_carriesTheOldRoot_andOldEntriesStayProvable(@TempDir Path folder) {
    try (Bench bench = new Bench(folder).start()) {
      Bench.Acknowledged old = bench.append();
      SignedNote witnessed = SignedNote.parse(old.receipt().checkpoint());
      assertThatThrownBy(() -> go(bench, witnessed)).hasMessageContaining("compromised");
      bench.keys = List.of(SigningKey.generate());
      SignedNote forged =
          evenside.note.Checkpoint.parse(witnessed.text()).sign(List.of(SigningKey.generate()));
      assertThatThrownBy(() -> go(bench, forged)).hasMessageContaining("not signed by a key");

      assertThat(go(bench, witnessed)).isEqualTo("ledger.evenside.example/c/2");

      assertThatThrownBy(bench::append).hasMessageContaining("its key was replaced");
      bench.restart();
      assertThat(bench.ledger.trouble()).isEmpty();
      Bench.Acknowledged newer = bench.append();
      assertThat(newer.receipt().index()).isEqualTo(2);
      Proofs proofs = bench.ledger.proofs("c");
      Entry first =
          Entry.parse(bench.store.read(r -> r.ledger().entries("c", 2, 0, 1)).get(0).entry());
      assertThat(first.type()).isEqualTo(EntryType.CONTINUATION);
      assertThat(first.document())
          .isEqualTo(evenside.note.Checkpoint.parse(witnessed.text()).head().root());
      assertThat(proofs.proof(old.id()).orElseThrow().proof().checkpoint().text())
          .startsWith("ledger.evenside.example/c\n");
      assertThat(proofs.proof(newer.id()).orElseThrow().proof().checkpoint().text())
          .startsWith("ledger.evenside.example/c/2\n");
      assertThat(proofs.keys()).hasSize(2);
      assertThat(LedgerAudit.of(bench.store, "c")).isEmpty();
    }
  }

  private static String go(Bench bench, SignedNote witnessed) {
    return Continuation.start(
        bench.store, "c", bench.settings(), witnessed, InstantSource.system());
  }
}

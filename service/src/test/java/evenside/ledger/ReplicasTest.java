package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.store.PostgresServer;
import evenside.store.database.StoreSettings;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two processes' worth of ledgers over one PostgreSQL server, with one key and a folder each. */
class ReplicasTest {
  @TempDir private Path folder;

  @Test
  void twoReplicas_appendToOneLedger_andNeitherContradictsTheOther() throws Exception {
    try (PostgresServer server = PostgresServer.start()) {
      StoreSettings where = server.settings().allowingWeakDurability();
      Bench first = new Bench(Files.createDirectory(folder.resolve("a")), where).start();
      first.append();
      Bench second = new Bench(Files.createDirectory(folder.resolve("b")), where);
      second.keys = first.keys;
      second.start();
      List<Bench.Acknowledged> all = appendOnBoth(first, second);
      Set<Long> indexes =
          all.stream().map(one -> one.receipt().index()).collect(Collectors.toSet());
      assertThat(indexes).hasSize(all.size());
      assertThat(all).allMatch(first::proves).allMatch(second::proves);
      List<Long> sizes =
          all.stream()
              .map(one -> SignedNote.parse(one.receipt().checkpoint()))
              .map(note -> Checkpoint.parse(note.text()).head().size())
              .toList();
      assertThat(sizes).allMatch(size -> size > 2);
      first.restart();
      second.restart();
      assertThat(first.ledger.trouble()).isEmpty();
      assertThat(second.ledger.trouble()).isEmpty();
      assertThat(LedgerAudit.of(first.store, Bench.CLINIC)).isEmpty();
      first.close();
      second.close();
    }
  }

  /** Its entry is in the ledger, and nobody was told; whoever asks again at another one is. */
  @Test
  void replicaThatDiedBeforeItSigned_isSignedForByAnother() throws Exception {
    try (PostgresServer server = PostgresServer.start()) {
      StoreSettings where = server.settings().allowingWeakDurability();
      Bench first = new Bench(Files.createDirectory(folder.resolve("a")), where).start();
      first.append();
      Bench second = new Bench(Files.createDirectory(folder.resolve("b")), where);
      second.keys = first.keys;
      // The folder, and the checkpoint that this replica starts with; the next one fails.
      second.disk = new Fault(3, true).disk();
      second.start();
      UUID signed = newest(first);
      assertThatThrownBy(second::append).isInstanceOf(LedgerRefusal.class);
      UUID left = newest(first);
      assertThat(left).isNotEqualTo(signed);
      assertThatThrownBy(
              () ->
                  first.store.read(
                      reading -> Proofs.within(reading.ledger(), Bench.CLINIC).proof(left)))
          .isInstanceOf(LedgerRefusal.class)
          .hasMessage("the newest entries are not signed yet");
      assertThat(second.ledger.receipt(Bench.CLINIC, left)).as("it takes no entries").isEmpty();
      Receipt receipt = first.ledger.receipt(Bench.CLINIC, left).orElseThrow();
      assertThat(first.proves(new Bench.Acknowledged(left, receipt))).isTrue();
      assertThat(first.ledger.receipt(Bench.CLINIC, left)).contains(receipt);
      assertThat(LedgerAudit.of(first.store, Bench.CLINIC)).isEmpty();
      second.close();
      first.close();
    }
  }

  /** The checkpoint of an answer goes into the table later; another replica has its own by then. */
  @Test
  void whatOneAnswered_isProvedByTheOther_andItsCheckpointIsNeverSmaller() throws Exception {
    try (PostgresServer server = PostgresServer.start()) {
      StoreSettings where = server.settings().allowingWeakDurability();
      Bench first = new Bench(Files.createDirectory(folder.resolve("a")), where).start();
      Bench second = new Bench(Files.createDirectory(folder.resolve("b")), where);
      second.keys = first.keys;
      second.start();
      for (int i = 0; i < 10; i++) {
        Bench.Acknowledged one = (i % 2 == 0 ? first : second).append();
        Bench other = i % 2 == 0 ? second : first;
        if (i < 5) {
          assertThat(other.proves(one)).isTrue();
        }
        assertThat(size(other.ledger.proofs(Bench.CLINIC).checkpoint().orElseThrow()))
            .isGreaterThanOrEqualTo(size(SignedNote.parse(one.receipt().checkpoint())));
      }
      second.close();
      first.close();
    }
  }

  private static long size(SignedNote note) {
    return Checkpoint.parse(note.text()).head().size();
  }

  private static UUID newest(Bench bench) {
    return bench
        .store
        .read(reading -> reading.ledger().last(Bench.CLINIC, 1))
        .orElseThrow()
        .entryId();
  }

  private static List<Bench.Acknowledged> appendOnBoth(Bench first, Bench second) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(8);
    List<Future<List<Bench.Acknowledged>>> futures = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      Bench bench = i % 2 == 0 ? first : second;
      futures.add(
          pool.submit(
              () -> {
                List<Bench.Acknowledged> done = new ArrayList<>();
                for (int n = 0; n < 20; n++) {
                  done.add(bench.append());
                }
                return done;
              }));
    }
    List<Bench.Acknowledged> all = new ArrayList<>();
    for (Future<List<Bench.Acknowledged>> future : futures) {
      all.addAll(future.get());
    }
    pool.shutdown();
    return all;
  }
}

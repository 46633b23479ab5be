package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.SigningKey;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A ledger that nobody tampers with. */
class LedgerTest {
  @TempDir private Path folder;

  @Test
  void everyRecord_isProved_beforeAndAfterARestart() {
    try (Bench bench = new Bench(folder).start()) {
      List<Bench.Acknowledged> all = new ArrayList<>();
      for (int i = 0; i < 20; i++) {
        all.add(bench.append());
        assertThat(bench.proves(all.get(i))).isTrue();
      }
      // The key, then the criteria set, come before the first decision.
      assertThat(all.get(0).receipt().index()).isEqualTo(2);
      bench.restart();
      all.add(bench.append());
      assertThat(all).allMatch(bench::proves);
      assertThat(bench.ledger.trouble()).isEmpty();
    }
  }

  @Test
  void receipt_coversItsEntry_andTheSideFileHasIt() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      Receipt receipt = bench.append().receipt();
      SignedNote note = SignedNote.parse(receipt.checkpoint());
      assertThat(note.isSignedBy(bench.key())).isTrue();
      assertThat(Checkpoint.parse(note.text()).head().size()).isGreaterThan(receipt.index());
      assertThat(Files.readString(folder.resolve("c.1.checkpoints")))
          .endsWith(receipt.checkpoint());
    }
  }

  @Test
  void eightWriters_leaveNoGap_andTimeNeverGoesBack() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      List<Bench.Acknowledged> all = inParallel(8, 25, bench::append);
      Set<Long> indexes =
          all.stream().map(one -> one.receipt().index()).collect(Collectors.toSet());
      assertThat(indexes).hasSize(200);
      assertThat(indexes).contains(2L, 201L);
      assertThat(all).allMatch(bench::proves);
      // The check at the start demands contiguous indexes and times that do not go back.
      bench.restart();
      assertThat(bench.ledger.trouble()).isEmpty();
    }
  }

  static <T> List<T> inParallel(int threads, int each, Callable<T> work) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    List<Future<List<T>>> futures = new ArrayList<>();
    for (int i = 0; i < threads; i++) {
      futures.add(
          pool.submit(
              () -> {
                List<T> done = new ArrayList<>();
                for (int n = 0; n < each; n++) {
                  done.add(work.call());
                }
                return done;
              }));
    }
    List<T> all = new ArrayList<>();
    for (Future<List<T>> future : futures) {
      all.addAll(future.get());
    }
    pool.shutdown();
    return all;
  }

  @Test
  void clockThatGoesBack_doesNotTakeTheLedgerBack() {
    try (Bench bench = new Bench(folder)) {
      Instant[] now = {Instant.parse("2026-03-02T12:00:00Z")};
      bench.clock = InstantSource.system();
      bench.clock = () -> now[0];
      bench.start();
      bench.append();
      now[0] = now[0].minusSeconds(3600);
      Bench.Acknowledged later = bench.append();
      assertThat(bench.ledger.proofs("c").proof(later.id()).orElseThrow().entry().recordedAt())
          .isEqualTo(Instant.parse("2026-03-02T12:00:00Z").toEpochMilli());
      bench.restart();
      assertThat(bench.ledger.trouble()).isEmpty();
    }
  }

  @Test
  void clinics_haveLedgersOfTheirOwn() {
    try (Bench bench = new Bench(folder).start()) {
      Bench.Acknowledged mine = bench.append("c");
      assertThat(bench.append("d").receipt().index()).isEqualTo(2);
      assertThat(bench.ledger.proofs("d").proof(mine.id())).isEmpty();
      assertThat(bench.ledger.proofs("d").checkpoint().orElseThrow().text())
          .startsWith("ledger.evenside.example/d\n3\n");
      assertThatThrownBy(() -> bench.append("../d")).isInstanceOf(LedgerRefusal.class);
    }
  }

  @Test
  void workThatFails_leavesNothing_andOthersAreNotTouched() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      bench.append();
      List<Boolean> failed =
          inParallel(
              8,
              10,
              () -> {
                Bench.Acknowledged done = bench.append();
                assertThatThrownBy(
                        () ->
                            bench.ledger.append(
                                "c",
                                appending -> {
                                  appending.add(NewEntry.erasure(done.id(), done.id()));
                                  throw new IllegalStateException("changed my mind");
                                }))
                    .hasMessage("changed my mind");
                return bench.proves(done);
              });
      assertThat(failed).hasSize(80).containsOnly(true);
      assertThat(bench.append().receipt().index()).isEqualTo(2 + 1 + 80);
    }
  }

  @Test
  void noteCutOffAtTheEnd_wasNeverAcknowledged_andIsCutAway() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      Bench.Acknowledged one = bench.append();
      bench.stop();
      Path side = folder.resolve("c.1.checkpoints");
      String whole = Files.readString(side);
      for (int cut : new int[] {1, 30, 40, 100, 190}) {
        String torn = whole + one.receipt().checkpoint().substring(0, cut);
        Files.writeString(side, torn, StandardCharsets.UTF_8);
        bench.start();
        assertThat(bench.ledger.trouble()).isEmpty();
        assertThat(Files.readString(side)).isEqualTo(whole);
        bench.stop();
      }
      bench.start();
      assertThat(bench.proves(one)).isTrue();
    }
  }

  @Test
  void committedButNotSigned_isSignedAtTheNextStart() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      Bench.Acknowledged one = bench.append();
      String before = Files.readString(folder.resolve("c.1.checkpoints"));
      bench.append(3);
      bench.tamper("delete from ledger_checkpoint where tree_size > 3");
      Files.writeString(
          folder.resolve("c.1.checkpoints"), before, StandardOpenOption.TRUNCATE_EXISTING);
      bench.start();
      assertThat(bench.ledger.trouble()).isEmpty();
      assertThat(bench.ledger.proofs("c").checkpoint().orElseThrow().text())
          .startsWith("ledger.evenside.example/c\n6\n");
      assertThat(bench.proves(one)).isTrue();
    }
  }

  /** Within a process it follows with the next turn; a copy of a stopped service has it too. */
  @Test
  void lastCheckpoint_isInTheTable_whenTheLedgerIsClosed() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      Bench.Acknowledged one = bench.append();
      assertThat(inTable(bench)).isNotEqualTo(one.receipt().checkpoint());
      bench.ledger.close();
      assertThat(inTable(bench)).isEqualTo(one.receipt().checkpoint());
    }
  }

  @Test
  void lookUp_hasSignedWhatItNeeds_andNothingElse() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      Bench.Acknowledged one = bench.append();
      assertThat(bench.ledger.receipt("c", one.id())).contains(one.receipt());
      assertThat(inTable(bench)).isEqualTo(one.receipt().checkpoint());
      Bench.Acknowledged two = bench.append();
      assertThat(bench.proves(one)).isTrue();
      assertThat(inTable(bench)).as("the first is covered").isEqualTo(one.receipt().checkpoint());
      assertThat(bench.ledger.proofs("c").consistency(1, two.receipt().index() + 1)).isPresent();
      assertThat(inTable(bench)).isEqualTo(two.receipt().checkpoint());
    }
  }

  private static String inTable(Bench bench) {
    return bench.store.read(reading -> reading.ledger().newestCheckpoint("c", 1)).orElseThrow();
  }

  /** A bug once: a process killed between the side file and the table left entries unproved. */
  @Test
  void checkpointInTheSideFileOnly_isInTheTableAfterTheNextStart() throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      Bench.Acknowledged one = bench.append();
      bench.tamper("delete from ledger_checkpoint where tree_size = 3");
      bench.start();
      assertThat(bench.ledger.trouble()).isEmpty();
      assertThat(bench.proves(one)).isTrue();
    }
  }

  @Test
  void secondProcessOnTheSameFolder_isRefused() {
    try (Bench bench = new Bench(folder).start()) {
      bench.append();
      try (Ledger second = Ledger.open(bench.store, bench.settings(), InstantSource.system())) {
        assertThat(second.trouble()).singleElement().asString().contains("checkpoint file already");
      }
    }
  }

  @Test
  void keysChangeOver_andEvidenceFromBeforeAndAfterHolds() {
    try (Bench bench = new Bench(folder).start()) {
      SigningKey old = bench.keys.get(0);
      Bench.Acknowledged before = bench.append();
      bench.stop();
      SigningKey next = SigningKey.generate();
      bench.keys = List.of(old, next);
      bench.start();
      Bench.Acknowledged overlap = bench.append();
      SignedNote both = SignedNote.parse(overlap.receipt().checkpoint());
      String name = "ledger.evenside.example/c";
      assertThat(both.isSignedBy(old.verifier(name))).isTrue();
      assertThat(both.isSignedBy(next.verifier(name))).isTrue();
      bench.stop();
      bench.keys = List.of(next);
      bench.start();
      Bench.Acknowledged after = bench.append();
      assertThat(SignedNote.parse(after.receipt().checkpoint()).isSignedBy(old.verifier(name)))
          .isFalse();
      assertThat(List.of(before, overlap, after)).allMatch(bench::proves);
      List<Proofs.PublishedKey> keys = bench.ledger.proofs("c").keys();
      assertThat(keys).hasSize(2);
      assertThat(keys.get(0).toSize()).contains(keys.get(1).fromSize());
      assertThat(keys.get(1).toSize()).isEmpty();
    }
  }

  @Test
  void keyThatNobodyAnnounced_isRefused() {
    try (Bench bench = new Bench(folder).start()) {
      bench.append();
      bench.stop();
      bench.keys = List.of(SigningKey.generate());
      bench.start();
      assertThat(bench.ledger.trouble())
          .singleElement()
          .asString()
          .contains("its key is ledger.evenside.example/c+")
          .contains("a new key needs the old one beside it");
      assertThatThrownBy(bench::append).isInstanceOf(LedgerRefusal.class);
    }
  }

  @Test
  void ledgerThatIsOff_recordsWithoutProof() {
    try (Bench bench = new Bench(folder).start()) {
      Ledger off = Ledger.off(bench.store);
      assertThat(off.on()).isFalse();
      Appended<Boolean> appended =
          off.append(
              "c",
              appending -> {
                appending.add(NewEntry.criteriaSet(java.util.UUID.randomUUID(), Bench.CRITERIA));
                return true;
              });
      assertThat(appended.receipt()).isEmpty();
      assertThat(off.proofs("c").checkpoint()).isEmpty();
    }
  }
}

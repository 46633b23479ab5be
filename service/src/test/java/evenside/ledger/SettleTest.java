package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.store.PostgresServer;
import evenside.store.database.StoreException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Checkpoints that were given out and are not in the table yet, when that goes badly. */
class SettleTest {
  private static final String FULL =
      "alter table ledger_checkpoint add constraint no_room check (false) not valid";
  private static final String ROOM = "alter table ledger_checkpoint drop constraint no_room";

  @TempDir private Path folder;

  /** Otherwise it would never be the newest, as others append while it is looked up. */
  @Test
  void newestCheckpoint_coversWhatWasAnsweredBefore_andTakesTwoTurnsAtMost_underLoad()
      throws Exception {
    AtomicLong turns = new AtomicLong();
    Thread asking = Thread.currentThread();
    try (Bench bench = new Bench(folder)) {
      bench.clock =
          () -> {
            if (Thread.currentThread() == asking) {
              turns.incrementAndGet();
            }
            return java.time.Instant.now();
          };
      bench.start();
      bench.append();
      AtomicBoolean running = new AtomicBoolean(true);
      AtomicLong answered = new AtomicLong();
      List<Thread> writers = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        writers.add(
            new Thread(
                () -> {
                  while (running.get()) {
                    long size = size(SignedNote.parse(bench.append().receipt().checkpoint()));
                    answered.accumulateAndGet(size, Math::max);
                  }
                }));
      }
      writers.forEach(Thread::start);
      try {
        for (int i = 0; i < 40; i++) {
          turns.set(0);
          long before = answered.get();
          assertThat(size(newest(bench))).isGreaterThanOrEqualTo(before);
          assertThat(turns.get()).isLessThanOrEqualTo(2);
        }
      } finally {
        running.set(false);
        for (Thread writer : writers) {
          writer.join();
        }
      }
    }
  }

  /** Reading goes on, with what there is; and it starts. */
  @Test
  void tableThatTakesNoCheckpoint_refusesRecordsAlone() throws Exception {
    try (PostgresServer server = PostgresServer.start()) {
      Bench bench = new Bench(folder, server.settings().allowingWeakDurability()).start();
      Bench.Acknowledged older = bench.append();
      assertThat(bench.proves(older)).isTrue();
      Bench.Acknowledged newer = bench.append();
      change(bench, FULL);
      for (int starts = 0; starts < 2; starts++) {
        assertThatThrownBy(bench::append).isInstanceOf(StoreException.class);
        assertThat(bench.proves(older)).isTrue();
        assertThat(newest(bench).toText()).isEqualTo(older.receipt().checkpoint());
        assertThat(bench.ledger.receipt("c", newer.id())).isEmpty();
        assertThatThrownBy(() -> bench.ledger.proofs("c").proof(newer.id()))
            .isInstanceOf(StoreException.class);
        bench.restart();
      }
      change(bench, ROOM);
      assertThat(bench.proves(newer)).isTrue();
      assertThat(bench.proves(bench.append())).isTrue();
      assertThat(LedgerAudit.of(bench.store, "c")).isEmpty();
      bench.close();
    }
  }

  /** The side files have the checkpoints, so nobody need wait for each clinic's. */
  @Test
  void databaseThatIsAway_keepsNobodyWaitingForTheEnd() throws Exception {
    try (PostgresServer server = PostgresServer.startDurable(folder.resolve("pg"))) {
      Bench bench = new Bench(Files.createDirectory(folder.resolve("a")), server.settings());
      bench.start();
      for (int clinic = 0; clinic < 24; clinic++) {
        bench.append("c-" + clinic);
      }
      server.stop();
      long start = System.nanoTime();
      bench.close();
      assertThat(Duration.ofNanos(System.nanoTime() - start)).isLessThan(Duration.ofSeconds(10));
      server.restart();
      bench.start();
      assertThat(bench.ledger.trouble()).isEmpty();
      bench.close();
    }
  }

  private static SignedNote newest(Bench bench) {
    return bench.ledger.proofs("c").checkpoint().orElseThrow();
  }

  private static long size(SignedNote note) {
    return Checkpoint.parse(note.text()).head().size();
  }

  private static void change(Bench bench, String sql) throws SQLException {
    try (Connection connection =
            DriverManager.getConnection(
                bench.where.url(), bench.where.user(), bench.where.password());
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}

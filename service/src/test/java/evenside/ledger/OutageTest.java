package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.PostgresServer;
import evenside.store.database.StoreException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A PostgreSQL server with fsync on is restarted under a ledger that is being written. */
@Timeout(120)
class OutageTest {
  private static final Duration SOON = Duration.ofSeconds(8);

  @TempDir private Path folder;

  @Test
  void restartOfTheServer_losesNothingAcknowledged_andNeedsNoRestartOfTheService()
      throws Exception {
    try (PostgresServer server = PostgresServer.startDurable(folder.resolve("pg"));
        Bench bench =
            new Bench(Files.createDirectory(folder.resolve("a")), server.settings()).start()) {
      Queue<Bench.Acknowledged> acknowledged = new ConcurrentLinkedQueue<>();
      Queue<Throwable> unexpected = new ConcurrentLinkedQueue<>();
      Queue<Duration> waits = new ConcurrentLinkedQueue<>();
      AtomicBoolean running = new AtomicBoolean(true);
      List<Thread> writers = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        writers.add(
            new Thread(
                () -> {
                  while (running.get()) {
                    long start = System.nanoTime();
                    try {
                      acknowledged.add(bench.append());
                    } catch (StoreException away) {
                      waits.add(Duration.ofNanos(System.nanoTime() - start));
                    } catch (RuntimeException | Error other) {
                      unexpected.add(other);
                    }
                  }
                }));
      }
      writers.forEach(Thread::start);
      waitForMore(acknowledged, 20);
      server.stop();
      // Until a caller has been told; a short outage is bridged without anybody noticing.
      waitForMore(waits, 1);
      server.restart();
      waitForMore(acknowledged, 20);
      running.set(false);
      for (Thread writer : writers) {
        writer.join();
      }
      assertThat(unexpected).isEmpty();
      assertThat(waits).isNotEmpty().allMatch(wait -> wait.compareTo(SOON) < 0);
      assertThat(bench.ledger.trouble()).isEmpty();
      assertThat(acknowledged).allMatch(bench::proves);
      assertThat(LedgerAudit.of(bench.store, Bench.CLINIC)).isEmpty();
      bench.restart();
      assertThat(bench.ledger.trouble()).isEmpty();
    }
  }

  private static void waitForMore(Queue<?> queue, int more) throws InterruptedException {
    int wanted = queue.size() + more;
    while (queue.size() < wanted) {
      Thread.sleep(20);
    }
  }
}

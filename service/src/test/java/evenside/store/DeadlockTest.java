package evenside.store;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.database.StoreConflict;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BrokenBarrierException;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * Two transactions that wait for each other: the database breaks one off, which both databases say
 * by class 40 of the SQL standard (transaction rollback). That must not look like the failure of
 * one part of a transaction, as H2 has then taken back all of it.
 */
@Timeout(60)
class DeadlockTest {
  private static final String CLINIC = "c";

  @TempDir private Path folder;

  @Test
  void onH2_oneOfTheTwoIsBrokenOff_andIsToldSo() throws Exception {
    oneIsBrokenOff(StoreSettings.inFolder(folder));
  }

  @Test
  void onPostgres_oneOfTheTwoIsBrokenOff_andIsToldSo() throws Exception {
    try (PostgresServer server = PostgresServer.start()) {
      oneIsBrokenOff(server.settings().allowingWeakDurability());
    }
  }

  private static void oneIsBrokenOff(StoreSettings settings) throws Exception {
    ExecutorService clients = Executors.newFixedThreadPool(2);
    try (Store store = Store.open(settings)) {
      for (String caseId : List.of("one", "two")) {
        store.<Boolean>write(
            writing -> {
              writing.cases().insert(Samples.kneeCase(CLINIC, caseId, 1));
              return true;
            });
      }
      CyclicBarrier bothHoldOne = new CyclicBarrier(2);
      Future<Boolean> there = clients.submit(() -> holds(store, "one", "two", bothHoldOne));
      Future<Boolean> back = clients.submit(() -> holds(store, "two", "one", bothHoldOne));

      List<StoreConflict.Kind> brokenOff = new ArrayList<>();
      for (Future<Boolean> one : List.of(there, back)) {
        try {
          assertThat(one.get()).isTrue();
        } catch (ExecutionException e) {
          assertThat(e.getCause()).isInstanceOf(StoreConflict.class);
          brokenOff.add(((StoreConflict) e.getCause()).kind());
        }
      }
      assertThat(brokenOff).containsExactly(StoreConflict.Kind.ROLLED_BACK);
    } finally {
      clients.shutdownNow();
    }
  }

  /** Holds one case, and then, in a part of the transaction, another. */
  private static boolean holds(Store store, String first, String then, CyclicBarrier both) {
    return store.writeInTurn(
        writing -> {
          writing.cases().hold(CLINIC, first);
          await(both);
          return writing.attempt(() -> writing.cases().hold(CLINIC, then).isPresent());
        });
  }

  private static void await(CyclicBarrier barrier) {
    try {
      barrier.await();
    } catch (InterruptedException | BrokenBarrierException e) {
      throw new IllegalStateException(e);
    }
  }
}

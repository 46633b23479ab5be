package evenside.store;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.kneeCase;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * What a transaction sees of others: one state of all tables, or in turn what was committed before
 * each statement; and a connection that served the one serves the other next. Own contract, in the
 * terms of the SQL standard's isolation levels.
 */
@Timeout(60)
class TransactionsTest {
  private static final String CLINIC = "c";

  /** A driver may change its way with a statement that it was given five times (PostgreSQL's). */
  private static final int ROUNDS = 8;

  @TempDir private Path folder;

  private int cases;

  @Test
  void onH2_eachKindSeesWhatItSays_onOneConnectionInTurns() throws Exception {
    eachKindSeesWhatItSays(StoreSettings.inFolder(folder));
  }

  @Test
  void onPostgres_eachKindSeesWhatItSays_onOneConnectionInTurns() throws Exception {
    try (PostgresServer server = PostgresServer.start()) {
      eachKindSeesWhatItSays(server.settings().allowingWeakDurability());
    }
  }

  private void eachKindSeesWhatItSays(StoreSettings settings) throws Exception {
    ExecutorService other = Executors.newSingleThreadExecutor();
    // Of two connections the test holds one and the others commit on the other: no third is made.
    try (Store store = Store.open(settings.withPoolSize(2))) {
      for (int round = 0; round < ROUNDS; round++) {
        assertThat(store.<Boolean>writeInTurn(writing -> seesACommit(writing, store, other)))
            .isTrue();
        assertThat(store.<Boolean>write(writing -> seesACommit(writing, store, other))).isFalse();
        assertThat(store.<Boolean>read(reading -> seesACommit(reading, store, other))).isFalse();
        assertThat(store.<Boolean>note(writing -> seesACommit(writing, store, other))).isFalse();
        assertThatThrownBy(
                () ->
                    store.writeInTurn(
                        writing -> {
                          throw new IllegalStateException("broken off");
                        }))
            .hasMessage("broken off");
      }
    } finally {
      other.shutdownNow();
    }
  }

  /** Whether a transaction sees what another committed after its first look. */
  private boolean seesACommit(Reading reading, Store store, ExecutorService other) {
    String caseId = "k-" + cases++;
    assertThat(reading.latestCase(CLINIC, caseId)).isEmpty();
    try {
      other
          .submit(
              () ->
                  store.write(
                      writing -> {
                        writing.cases().insert(kneeCase(CLINIC, caseId, 1));
                        return NOON;
                      }))
          .get();
    } catch (InterruptedException | ExecutionException e) {
      throw new IllegalStateException(e);
    }
    return reading.latestCase(CLINIC, caseId).isPresent();
  }
}

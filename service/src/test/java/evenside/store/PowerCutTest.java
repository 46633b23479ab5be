package evenside.store;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.battery;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a write returned, and what a read showed, is there after a power cut. The cut is simulated:
 * the store runs on {@link ForgetfulDisk}, and what that says is left is opened as a new store.
 */
@Timeout(60)
class PowerCutTest {
  private static final int CUTS = 8;

  @TempDir Path folder;
  private final Set<UUID> told = ConcurrentHashMap.newKeySet();
  private final AtomicBoolean stop = new AtomicBoolean();

  /**
   * After 45 s H2 uses places in its file again; here at once. H2 2.5.250 and 2.5.252 then wrote a
   * header that names the chunk before the last, and commits were lost also to a killed process, of
   * which every write survives.
   */
  @ParameterizedTest
  @CsvSource({"0, ''", "0.5, ''", "0, ;RETENTION_TIME=0", "1, ;RETENTION_TIME=0"})
  void everythingTold_isThereAfterAPowerCut(double unsyncedWritesThatSurvive, String more)
      throws Exception {
    String options = StoreSettings.inFolder(folder).url().replaceFirst("^[^;]*", "") + more;
    String url = ForgetfulDisk.url(folder.resolve("evenside")) + options;
    ExecutorService threads = Executors.newFixedThreadPool(9);
    try (Store store = Store.open(StoreSettings.at(url, "evenside", ""))) {
      for (int i = 0; i < 3; i++) {
        threads.submit(() -> write(store));
        threads.submit(() -> read(store));
        boolean refusing = i == 0;
        threads.submit(() -> lookOtherwise(store, refusing));
      }
      for (int cut = 1; cut <= CUTS; cut++) {
        TimeUnit.MILLISECONDS.sleep(new Random().nextInt(150));
        List<UUID> toldBefore = List.copyOf(told);
        byte[] left = ForgetfulDisk.afterPowerCut(unsyncedWritesThatSurvive, new Random());
        assertAllThere(folder.resolve("cut-" + cut), left, toldBefore);
      }
      stop.set(true);
      threads.shutdown();
      assertThat(threads.awaitTermination(10, TimeUnit.SECONDS)).isTrue();
    } finally {
      stop.set(true);
      threads.shutdownNow();
    }
    assertThat(told).hasSizeGreaterThan(100);
  }

  private void write(Store store) {
    while (!stop.get()) {
      told.add(
          store.write(
              w -> {
                StoredBattery battery = battery("c", "k-1", NOON);
                w.insertBattery(battery, List.of());
                return battery.id();
              }));
    }
  }

  private void read(Store store) {
    while (!stop.get()) {
      store
          .read(r -> r.batteries("c", "k-1", Optional.empty(), 5))
          .forEach(battery -> told.add(battery.id()));
    }
  }

  private void lookOtherwise(Store store, boolean refusing) {
    if (refusing) {
      refuse(store);
    } else {
      readAhead(store);
    }
  }

  /** What is refused for what is there tells of it, whether it was read or met while writing. */
  private void refuse(Store store) {
    boolean writing = false;
    while (!stop.get()) {
      List<StoredBattery> seen = new ArrayList<>();
      try {
        if (writing) {
          store.write(w -> refuse(w, seen));
        } else {
          store.read(r -> refuse(r, seen));
        }
      } catch (IllegalStateException refused) {
        seen.forEach(battery -> told.add(battery.id()));
      }
      writing = !writing;
    }
  }

  private static Boolean refuse(Reading reading, List<StoredBattery> seen) {
    seen.addAll(reading.batteries("c", "k-1", Optional.empty(), 5));
    throw new IllegalStateException("refused");
  }

  private void readAhead(Store store) {
    while (!stop.get()) {
      List<StoredBattery> seen = store.readAhead(r -> r.batteries("c", "k-1", Optional.empty(), 5));
      store.settle();
      seen.forEach(battery -> told.add(battery.id()));
    }
  }

  private static void assertAllThere(Path folder, byte[] file, List<UUID> ids) throws IOException {
    Files.createDirectories(folder);
    Files.write(folder.resolve("evenside.mv.db"), file);
    try (Store store = Store.open(StoreSettings.inFolder(folder))) {
      assertThat(ids).allMatch(id -> store.read(r -> r.battery("c", id)).isPresent());
    }
  }
}

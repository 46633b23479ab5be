package evenside.store;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.database.GroupSync;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * What was acknowledged outlives {@code kill -9}. That the file was synced too is {@link
 * GroupSync}'s part, and {@link PowerCutTest}'s.
 */
@Timeout(60)
class KillTest {
  private static final int KILLS = 3;

  @Test
  void everyAcknowledgedRecord_isThereAfterTheProcessWasKilled(@TempDir Path folder)
      throws Exception {
    Map<UUID, String> acknowledged = new LinkedHashMap<>();
    for (int kill = 1; kill <= KILLS; kill++) {
      int before = acknowledged.size();
      killAfterAWhile(folder, acknowledged);
      assertThat(acknowledged.size() - before)
          .as("records before kill %d", kill)
          .isGreaterThan(200);
      try (Store store = Store.open(StoreSettings.inFolder(folder))) {
        acknowledged.forEach((id, sha256) -> assertIntact(store, id, sha256));
      }
    }
  }

  private static void killAfterAWhile(Path folder, Map<UUID, String> acknowledged)
      throws IOException {
    int enough = 300 + new Random().nextInt(700);
    try (Victim writer = Victim.start(KilledWriter.class, folder)) {
      writer.killAfter(
          enough,
          36 + 1 + 64,
          line -> acknowledged.put(UUID.fromString(line.substring(0, 36)), line.substring(37)));
    }
  }

  private static void assertIntact(Store store, UUID id, String sha256) {
    StoredBattery battery = store.read(r -> r.battery("c", id)).orElseThrow();
    assertThat(Samples.sha256(battery.document())).isEqualTo(sha256);
  }
}

package evenside.store;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * What was acknowledged outlives {@code kill -9}. With H2's default settings this loses records at
 * every kill. A power cut is not tried: that the file was synced is {@link GroupSync}'s part.
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
      throws IOException, InterruptedException {
    int enough = 300 + new Random().nextInt(700);
    Path errors = folder.resolve("errors.txt");
    Process writer =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                KilledWriter.class.getName(),
                folder.toString())
            .redirectError(errors.toFile())
            .start();
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(writer.getInputStream(), UTF_8))) {
      int read = 0;
      String line = lines.readLine();
      while (line != null) {
        // The pipe may end inside a line; only a whole one is an acknowledgement.
        if (line.length() == 36 + 1 + 64) {
          acknowledged.put(UUID.fromString(line.substring(0, 36)), line.substring(37));
        }
        read++;
        if (read == enough) {
          // By its handle: Process.destroyForcibly would also close the pipe with what is in it.
          writer.toHandle().destroyForcibly();
        }
        line = lines.readLine();
      }
      assertThat(read).as("acknowledged; %s", Files.readString(errors)).isGreaterThan(200);
    } finally {
      writer.destroyForcibly();
      assertThat(writer.waitFor(10, TimeUnit.SECONDS)).isTrue();
    }
  }

  private static void assertIntact(Store store, UUID id, String sha256) {
    StoredBattery battery = store.read(r -> r.battery("c", id)).orElseThrow();
    assertThat(Samples.sha256(battery.document())).isEqualTo(sha256);
  }
}

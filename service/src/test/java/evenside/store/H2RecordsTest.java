package evenside.store;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.TimeZone;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;

class H2RecordsTest extends RecordsContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onH2();

  @Override
  StoreSettings settings() {
    return OPEN.settings();
  }

  @Override
  Store store() {
    return OPEN.store();
  }

  /**
   * Clocks in this zone went back at 01:00 UTC on 25 October 2026, so 02:30 came twice. A driver
   * that goes through local time mixes the two up.
   */
  @Test
  void time_inTheHourThatOccursTwice_comesBackAsTheSameInstant(@TempDir Path folder) {
    TimeZone before = TimeZone.getDefault();
    TimeZone.setDefault(TimeZone.getTimeZone("Europe/Paris"));
    String url = StoreSettings.inFolder(folder).url() + ";TIME ZONE=Europe/Paris";
    try (Store inParis = Store.open(StoreSettings.at(url, "sa", ""))) {
      for (String at : List.of("2026-10-25T00:30:00.123456Z", "2026-10-25T01:30:00.123456Z")) {
        StoredBattery written = Samples.battery("c", "k-1", Instant.parse(at));
        inParis.<StoredBattery>write(
            w -> {
              w.insertBattery(written, List.of());
              return written;
            });
        assertThat(inParis.read(r -> r.battery("c", written.id())).orElseThrow().performedAt())
            .isEqualTo(at);
      }
    } finally {
      TimeZone.setDefault(before);
    }
  }
}

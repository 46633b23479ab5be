package evenside.store;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
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

  /** A copy of the file is what a process leaves that is killed at that moment. */
  @Test
  void whatIsWrittenOrNoted_isInTheFile_whenThatReturns(@TempDir Path folder) throws IOException {
    StoredBattery written = Samples.battery("c", "k-1", Samples.NOON);
    Access noted = new Access(Samples.newId(), Samples.NOON, "r", "read", Samples.newId());
    Path copy = Files.createDirectory(folder.resolve("copy"));
    try (Store store = Store.open(StoreSettings.inFolder(folder))) {
      store.<StoredBattery>write(
          w -> {
            w.insertBattery(written, List.of());
            return written;
          });
      store.<Access>note(
          w -> {
            w.audit().insertAccesses("c", List.of(noted));
            return noted;
          });
      Files.copy(folder.resolve("evenside.mv.db"), copy.resolve("evenside.mv.db"));
    }
    try (Store left = Store.open(StoreSettings.inFolder(copy))) {
      assertThat(left.<Optional<StoredBattery>>read(r -> r.battery("c", written.id()))).isPresent();
      List<Access> trail =
          left.read(r -> r.audit().accesses("c", Optional.empty(), Optional.empty(), 9));
      assertThat(trail).containsExactly(noted);
    }
  }
}

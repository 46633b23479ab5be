package evenside.api.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.api.Test;

class RememberedTest {
  private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");

  private Instant now = NOON;
  private final Remembered<String> remembered = new Remembered<>(() -> now);

  @Test
  void entry_holdsForItsTime() {
    remembered.put("token", "known", NOON.plusSeconds(5));
    now = NOON.plusMillis(4_999);
    assertThat(remembered.get("token")).contains("known");
    now = NOON.plusSeconds(5);
    assertThat(remembered.get("token")).isEmpty();
  }

  /** A revoked key would live on until the clock is where it was. */
  @Test
  void entry_ofBeforeTheClockWasPutBack_isForgotten() {
    remembered.put("token", "known", NOON.plusSeconds(5));
    now = NOON.minusSeconds(3_600);
    assertThat(remembered.get("token")).isEmpty();
    now = NOON.plusSeconds(1);
    assertThat(remembered.get("token")).as("also when it is put forward again").isEmpty();
  }
}

package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Two kills; {@link Kills} does any number. */
@Timeout(120)
class KillsTest {
  @Test
  void everyAcknowledgedEntry_isThereAndProvable_afterEachKill(@TempDir Path folder)
      throws Exception {
    Kills kills = new Kills(folder);
    for (int i = 0; i < 2; i++) {
      kills.once(120);
    }
    assertThat(kills.acknowledged()).isGreaterThan(120);
  }
}

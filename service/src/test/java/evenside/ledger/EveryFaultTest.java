package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.note.SigningKey;
import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A part of the operations; {@link EveryFault} fails them all. */
@Timeout(300)
class EveryFaultTest {
  @Test
  void afterAFailedOperation_everythingAcknowledgedIsThere() throws Exception {
    EveryFault every = new EveryFault();
    every.run(1, 5, false);
    assertThat(every.failed().keySet()).containsAnyOf("sync", "write");
    assertThat(every.failed().keySet()).containsAnyOf("database write", "database sync");
  }

  @Test
  void rotationThatFails_atAnyOperation_leavesAKeyOrIsEndedByTheNext(@TempDir Path folder)
      throws Exception {
    Path key = folder.resolve("ledger.key");
    Path previous = folder.resolve("ledger-previous.key");
    for (int passing = 0; ; passing++) {
      java.nio.file.Files.deleteIfExists(key);
      java.nio.file.Files.deleteIfExists(previous);
      String old = KeyFiles.create(key).verifier("a").line();
      Fault fault = new Fault(passing, true);
      if (rotated(folder, fault)) {
        assertThat(passing).isGreaterThan(4);
        break;
      }
      Set<String> lines =
          java.util.stream.Stream.of(key, previous)
              .filter(java.nio.file.Files::exists)
              .map(file -> KeyFiles.read(file).verifier("a").line())
              .collect(java.util.stream.Collectors.toSet());
      assertThat(lines).as("after %s", fault.failed()).contains(old);
    }
    assertThat(LedgerSettings.inFolder(folder, "a").keys()).hasSize(2);
  }

  private static boolean rotated(Path folder, Fault fault) {
    try {
      LedgerSettings.rotate(folder, fault.disk());
      return true;
    } catch (LedgerRefusal refusal) {
      if (java.nio.file.Files.exists(folder.resolve("ledger.key"))) {
        return false;
      }
      SigningKey ended = LedgerSettings.rotate(folder);
      assertThat(KeyFiles.read(folder.resolve("ledger.key")).verifier("a"))
          .isEqualTo(ended.verifier("a"));
      return false;
    }
  }

  @Test
  void keyFileThatOthersMayRead_isRefused(@TempDir Path folder) throws Exception {
    Path key = folder.resolve("ledger.key");
    KeyFiles.create(key);
    java.nio.file.Files.setPosixFilePermissions(
        key, java.nio.file.attribute.PosixFilePermissions.fromString("rw-r-----"));
    assertThatThrownBy(() -> KeyFiles.read(key)).hasMessageContaining("mode 0600");
    assertThatThrownBy(() -> KeyFiles.create(key)).hasMessageContaining("there is a key file");
  }

  @Test
  void lostKey_isNotReplaced(@TempDir Path folder) throws Exception {
    try (Bench bench = new Bench(folder).start()) {
      bench.append();
    }
    assertThatThrownBy(() -> LedgerSettings.inOwnFolder(folder, "a", false))
        .isInstanceOf(LedgerRefusal.class)
        .hasMessageContaining("bring it back, or if it is lost, replace it");
  }
}

package evenside.api.command;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.Http;
import evenside.api.ServiceProcess;
import evenside.ledger.KeyFiles;
import evenside.ledger.LedgerSettings;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The keeper of a record, after the key of its ledger became known to others. */
@Timeout(120)
class LedgerKeyCommandTest {
  @TempDir private Path folder;

  private Path evidence(URI service, String location, String name) throws Exception {
    return Files.writeString(
        folder.resolve(name), Http.get(service, location + "/evidence").body());
  }

  private static String decide(URI service, String key) throws Exception {
    return Http.decide(service, "c", key).headers().firstValue("Location").orElseThrow();
  }

  private static void send(URI service, String method, String path, String body) throws Exception {
    HttpResponse<String> reply =
        Http.send(service, method, path, "application/json", body, "Idempotency-Key", path);
    assertThat(reply.statusCode()).as(reply.body()).isEqualTo(201);
  }

  @Test
  void replacedKey_signsWhatFollows_andWhatWasDecidedBeforeStaysProvable() throws Exception {
    Path data = folder.resolve("data");
    Path checkpoint = folder.resolve("kept");
    String before;
    try (ServiceProcess service = ServiceProcess.start(data)) {
      send(service.url(), "PUT", "/v1/cases/c", Examples.kneeCase());
      send(service.url(), "POST", "/v1/cases/c/batteries", Examples.battery());
      before = decide(service.url(), "first");
      Files.writeString(checkpoint, Http.get(service.url(), "/v1/ledger/checkpoint").body());
      Run busy = Run.of("ledger-key", "replace", "--data", data, "--checkpoint", checkpoint);
      assertThat(busy.exitCode()).isEqualTo(Main.FAILED);
      assertThat(busy.err()).contains("stop it first");
    }
    String oldLine =
        KeyFiles.read(LedgerSettings.keyIn(data))
            .verifier(LedgerSettings.DEFAULT_NAME + "/local")
            .line();
    Run without = Run.of("ledger-key", "replace", "--data", data);
    assertThat(without.exitCode()).isEqualTo(Main.FAILED);
    assertThat(without.err()).contains("no checkpoint was given of the ledger", "/local");

    Run replaced = Run.of("ledger-key", "replace", "--data", data, "--checkpoint", checkpoint);

    assertThat(replaced.exitCode()).as(replaced.err()).isZero();
    String newLine = replaced.out().strip();
    assertThat(newLine).startsWith(LedgerSettings.DEFAULT_NAME + "/local/2+");
    try (ServiceProcess service = ServiceProcess.start(data)) {
      Path older = evidence(service.url(), before, "before");
      Path newer = evidence(service.url(), decide(service.url(), "second"), "after");
      assertThat(Run.of("verify", "--key", oldLine, "--recompute", older).exitCode()).isZero();
      assertThat(Run.of("verify", "--key", newLine, "--recompute", newer).exitCode()).isZero();
      assertThat(Run.of("verify", "--key", oldLine, newer).exitCode()).isEqualTo(Main.FAULTY);
    }
    Run audit = Run.of("audit", "--data", data, "--since", checkpoint);
    assertThat(audit.exitCode()).as(audit.out()).isZero();
  }

  @Test
  void madeKey_isPrintedAsTheClinicWillNameIt() {
    Path file = folder.resolve("own.key");
    String line = Run.of("ledger-key", "create", "--clinic", "north", file).out();
    assertThat(line).startsWith(LedgerSettings.DEFAULT_NAME + "/north+");
    assertThat(Run.of("ledger-key", "show", "--clinic", "north", file).out()).isEqualTo(line);
  }

  /** As replicas name theirs, and who moved a record. */
  @Test
  void namedKey_isRotated_andBothSignUntilTheOldOneIsRemoved() throws Exception {
    Path data = folder.resolve("data");
    Path key = Files.createDirectory(folder.resolve("keys")).resolve("ledger.key");
    String oldLine = Run.of("ledger-key", "create", key).out().strip();
    try (ServiceProcess service = ServiceProcess.start(data, "--ledger-key", key)) {
      send(service.url(), "PUT", "/v1/cases/c", Examples.kneeCase());
      send(service.url(), "POST", "/v1/cases/c/batteries", Examples.battery());
    }
    String newLine = Run.of("ledger-key", "rotate", "--data", key.getParent()).out().strip();
    try (ServiceProcess service = ServiceProcess.start(data, "--ledger-key", key)) {
      Path both = evidence(service.url(), decide(service.url(), "first"), "both");
      assertThat(Run.of("verify", "--key", oldLine, both).exitCode()).isZero();
      assertThat(Run.of("verify", "--key", newLine, both).exitCode()).isZero();
    }
    Files.delete(key.resolveSibling("ledger-previous.key"));
    try (ServiceProcess service = ServiceProcess.start(data, "--ledger-key", key)) {
      Path one = evidence(service.url(), decide(service.url(), "second"), "one");
      assertThat(Run.of("verify", "--key", oldLine, one).exitCode()).isEqualTo(Main.FAULTY);
      assertThat(Run.of("verify", "--key", newLine, one).exitCode()).isZero();
    }
  }

  @Test
  void lostKey_isReplaced_goingOnFromWhatWasSignedLast() throws Exception {
    Path data = folder.resolve("data");
    try (ServiceProcess service = ServiceProcess.start(data)) {
      send(service.url(), "PUT", "/v1/cases/c", Examples.kneeCase());
      send(service.url(), "POST", "/v1/cases/c/batteries", Examples.battery());
      decide(service.url(), "first");
    }
    Files.delete(LedgerSettings.keyIn(data));
    Run without = Run.of("ledger-key", "replace", "--data", data);
    assertThat(without.exitCode()).isEqualTo(Main.FAILED);
    assertThat(without.err()).contains("there is no key file");

    Run replaced = Run.of("ledger-key", "replace", "--data", data, "--lost");

    assertThat(replaced.exitCode()).as(replaced.err()).isZero();
    try (ServiceProcess service = ServiceProcess.start(data)) {
      Path newer = evidence(service.url(), decide(service.url(), "second"), "after");
      Run verified = Run.of("verify", "--key", replaced.out().strip(), newer);
      assertThat(verified.exitCode()).as(verified.out()).isZero();
    }
    Run audit = Run.of("audit", "--data", data);
    assertThat(audit.exitCode()).as(audit.out()).isZero();
  }
}

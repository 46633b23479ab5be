package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import evenside.api.webhook.Receiver;
import evenside.api.webhook.Receiver.Heard;
import io.restassured.RestAssured;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Base64;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** An acknowledged decision is told although the service was killed right after it. */
@Timeout(60)
class WebhookKillTest {
  private static final byte[] SECRET = new byte[32];
  private static final String LISTENS = "Evenside listens on ";

  @TempDir Path folder;

  @Test
  void decision_beforeAKill_isToldAfterTheNextStart() throws Exception {
    int port;
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    Path targets = targets(port);
    String decision = decideAndKill(targets);
    Settings settings =
        TestSettings.in(folder.resolve("data")).with(Catalogue.WEBHOOKS, targets.toString());
    try (Receiver receiver = new Receiver(port, SECRET, n -> 200)) {
      RunningService again = RunningService.start(settings);
      try {
        Heard heard = receiver.await(1).get(0);
        assertThat(heard.genuine()).isTrue();
        assertThat(heard.json().path("decisionId").asString()).isEqualTo(decision);
      } finally {
        again.stop();
      }
    }
  }

  private Path targets(int port) throws IOException {
    String line =
        "local http://127.0.0.1:%d/hooks k1 %s%n"
            .formatted(port, Base64.getEncoder().encodeToString(SECRET));
    Path file = Files.writeString(folder.resolve("webhooks"), line);
    if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
      Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
    }
    return file;
  }

  private String decideAndKill(Path targets) throws IOException, InterruptedException {
    Process service =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName(),
                "serve",
                "--port",
                "0",
                "--data",
                folder.resolve("data").toString(),
                "--webhooks",
                targets.toString())
            .redirectErrorStream(true)
            .start();
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(service.getInputStream(), StandardCharsets.UTF_8))) {
      String line = lines.readLine();
      while (line != null && !line.startsWith(LISTENS)) {
        line = lines.readLine();
      }
      assertThat(line).isNotNull();
      String cases = line.substring(LISTENS.length()) + "/v1/cases/knee-1";
      RestAssured.given()
          .contentType("application/json")
          .body(Examples.kneeCase().getBytes(StandardCharsets.UTF_8))
          .put(cases)
          .then()
          .statusCode(201);
      return RestAssured.given()
          .contentType("application/json")
          .header("Idempotency-Key", "key")
          .body(Examples.decisionRequest().getBytes(StandardCharsets.UTF_8))
          .post(cases + "/decisions")
          .then()
          .statusCode(201)
          .extract()
          .path("decisionId");
    } finally {
      service.destroyForcibly();
      assertThat(service.waitFor(10, TimeUnit.SECONDS)).isTrue();
    }
  }
}

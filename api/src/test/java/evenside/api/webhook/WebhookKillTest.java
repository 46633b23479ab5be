package evenside.api.webhook;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.RunningService;
import evenside.api.ServiceProcess;
import evenside.api.TestSettings;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import evenside.api.webhook.Receiver.Heard;
import io.restassured.RestAssured;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Base64;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** An acknowledged decision is told although the service was killed right after it. */
@Timeout(60)
class WebhookKillTest {
  private static final byte[] SECRET = new byte[32];

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

  private String decideAndKill(Path targets) throws IOException {
    ServiceProcess service = ServiceProcess.start(folder.resolve("data"), "--webhooks", targets);
    try {
      String cases = service.url() + "/v1/cases/knee-1";
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
      service.kill();
    }
  }
}

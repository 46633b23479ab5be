package evenside.api.page;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.RunningService;
import evenside.api.ShownCommands;
import evenside.api.ShownCommands.Ran;
import evenside.api.TestSettings;
import evenside.api.settings.Catalogue;
import io.restassured.RestAssured;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Every command of the guide does what it says, each walk in a folder of its own as a reader would
 * go it. Needs bash, curl, unzip and sha256sum; the receiver needs python3.
 */
class GuideTest {
  private static final Pattern BLOCK = Pattern.compile("```(\\w+)\n(.*?)```", Pattern.DOTALL);

  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @TempDir Path folder;

  private static String guide() throws IOException {
    try (InputStream in = GuideTest.class.getResourceAsStream("guide.md")) {
      assertThat(in).isNotNull();
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** The parts between headings of the second level, by heading. */
  private static Map<String, String> walks() throws IOException {
    Map<String, String> walks = new LinkedHashMap<>();
    for (String part : guide().split("\n## ")) {
      walks.put(part.lines().findFirst().orElseThrow(), part);
    }
    return walks;
  }

  private static List<String> code(String text, String language) {
    Matcher block = BLOCK.matcher(text);
    return block.results().filter(m -> m.group(1).equals(language)).map(m -> m.group(2)).toList();
  }

  /** Runs a walk as one script; gives what was printed, after a line for each block. */
  private String walk(String heading) throws Exception {
    List<String> blocks = code(walks().get(heading), "sh");
    StringBuilder script = new StringBuilder();
    for (int i = 0; i < blocks.size(); i++) {
      script.append("printf '\\n== ").append(i).append(" ==\\n'\n").append(blocks.get(i));
    }
    Ran ran = ShownCommands.run(script.toString(), folder, SERVICE.port());
    assertThat(ran.exit()).as("%s%n%s", heading, ran.output()).isZero();
    for (String output : ran.output().split("\n== \\d+ ==\n")) {
      if (output.startsWith("{")) {
        JsonNode answer = JsonMapper.shared().readTree(output);
        assertThat(answer.path("status").asInt(200)).as(output).isEqualTo(200);
      }
    }
    return ran.output();
  }

  private static void assumeTools() throws Exception {
    ShownCommands.assumeHere("curl", "unzip", "sha256sum");
  }

  @Test
  void clinicSoftware_recordsAndDecides() throws Exception {
    assumeTools();
    String output = walk("Clinic software");
    assertThat(output).contains("\"outcome\":\"not-met\"", "the same", "\"batteryId\":\"");
    JsonNode decision = JsonMapper.shared().readTree(folder.resolve("decision.json"));
    assertThat(decision.path("undetermined").toString()).contains("effusion");
  }

  @Test
  void integrator_checksOffline_andComparesVersions() throws Exception {
    assumeTools();
    String output = walk("Integrator");
    assertThat(output)
        .contains("as published", ": battery, valid", "\"summary\"", "differences: 0")
        .contains("\"valid\":false", "\"recorded\":false");
    JsonNode report = JsonMapper.shared().readTree(folder.resolve("report.json"));
    assertThat(LiveService.CONTRACT.validate("folder-report", report)).isEmpty();
  }

  @Test
  void auditor_findsADecision_andChecksItsProof() throws Exception {
    assumeTools();
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/audited-1");
    SERVICE.record(Examples.decisionRequest()).post("/v1/cases/audited-1/decisions");
    String output = walk("Auditor");
    assertThat(output)
        .contains("ledger.evenside.example/local", "ok      recompute")
        .doesNotContain("FAILED");
    assertThat(output).contains("\"action\":\"read\"", "\"action\":\"evidence\"");
  }

  @Test
  void page_showsEveryWalk_andTheChangelogEveryVersion() throws Exception {
    String page = SERVICE.http().get("/docs/guide").asString();
    for (String heading : walks().keySet()) {
      assertThat(page).contains(heading.replace("# ", ""));
    }
    assertThat(page).contains("<pre tabindex=\"0\">curl -sf ", "<code>Idempotency-Key</code>");
    assertThat(page).doesNotContain("```").doesNotContain("<p>#");
    assertThat(SERVICE.http().get("/docs/changes").asString())
        .contains("Version 1.0, 2026-11-25", "Version 0.1.0, 2026-11-25");
    assertThat(SERVICE.http().get("/docs").asString()).contains("/docs/guide", "/docs/changes");
  }

  /** The sample receiver believes what the service sends, once, and nothing else. */
  @Test
  void receiver_ofTheGuide_hearsADecision() throws Exception {
    String python = code(guide(), "python").get(0);
    ShownCommands.assumeHere("python3");
    Path program = Files.writeString(folder.resolve("receiver.py"), python);
    String secret = Base64.getEncoder().encodeToString(new byte[32]);
    int port = freePort();
    Process receiver =
        new ProcessBuilder("python3", program.toString(), Integer.toString(port), secret)
            .redirectError(folder.resolve("receiver.log").toFile())
            .start();
    try {
      awaitListening(port);
      assertThat(forged(port)).isEqualTo(401);
      String decision = decideWithWebhook(port, secret);
      try (BufferedReader lines =
          new BufferedReader(
              new InputStreamReader(receiver.getInputStream(), StandardCharsets.UTF_8))) {
        assertThat(lines.readLine()).isEqualTo("decision " + decision + " of case told-1");
      }
    } finally {
      receiver.destroy();
      assertThat(receiver.waitFor(10, TimeUnit.SECONDS)).isTrue();
    }
  }

  private String decideWithWebhook(int port, String secret) throws Exception {
    Path targets =
        Files.writeString(
            folder.resolve("webhooks"),
            "local http://127.0.0.1:" + port + "/evenside k1 " + secret + "\n");
    Files.setPosixFilePermissions(targets, PosixFilePermissions.fromString("rw-------"));
    RunningService service =
        RunningService.start(
            TestSettings.in(folder.resolve("data")).with(Catalogue.WEBHOOKS, targets.toString()));
    try {
      String cases = service.url() + "/v1/cases/told-1";
      RestAssured.given()
          .contentType("application/json")
          .body(Examples.kneeCase().getBytes(StandardCharsets.UTF_8))
          .put(cases);
      String decision =
          RestAssured.given()
              .contentType("application/json")
              .header("Idempotency-Key", "k")
              .body(Examples.decisionRequest().getBytes(StandardCharsets.UTF_8))
              .post(cases + "/decisions")
              .path("decisionId");
      Thread.sleep(TimeUnit.SECONDS.toMillis(2));
      return decision;
    } finally {
      service.stop();
    }
  }

  /** A request with a signature by another secret. */
  private static int forged(int port) {
    return RestAssured.given()
        .header("Content-Digest", "sha-256=:47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=:")
        .header("Signature-Input", "evenside=(\"@method\");created=1;keyid=\"k1\"")
        .header("Signature", "evenside=:AAAA:")
        .post("http://127.0.0.1:" + port + "/evenside")
        .statusCode();
  }

  private static int freePort() throws IOException {
    try (ServerSocket free = new ServerSocket(0)) {
      return free.getLocalPort();
    }
  }

  private static void awaitListening(int port) throws InterruptedException {
    for (int i = 0; i < 200; i++) {
      try (Socket socket = new Socket("127.0.0.1", port)) {
        assertThat(socket.isConnected()).isTrue();
        return;
      } catch (IOException e) {
        Thread.sleep(50);
      }
    }
    throw new AssertionError("the receiver does not listen");
  }
}

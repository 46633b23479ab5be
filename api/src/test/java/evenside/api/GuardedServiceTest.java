package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.command.Main;
import evenside.api.command.Run;
import evenside.api.server.Tls;
import evenside.api.settings.Catalogue;
import io.restassured.RestAssured;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManagerFactory;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A service with authentication and TLS, from the first key to the audit. The certificate is made
 * by the JDK's keytool, and checked by the JDK's client.
 */
class GuardedServiceTest {
  private static final String PASSWORD = "invented-for-tests";

  @TempDir static Path folder;

  private static Path data;
  private static Path certificate;
  private static KeyStore trusted;
  private static String token;
  private static RunningService service;

  @BeforeAll
  static void start() throws Exception {
    data = folder.resolve("data");
    certificate = folder.resolve("service.p12");
    keytool("-genkeypair", "-alias", "service", "-keyalg", "EC", "-groupname", "secp256r1");
    trusted = KeyStore.getInstance("PKCS12");
    trusted.load(null, null);
    trusted.setCertificateEntry(
        "service",
        KeyStore.getInstance(certificate.toFile(), PASSWORD.toCharArray())
            .getCertificate("service"));
    token =
        Run.of(
                "keys",
                "issue",
                "--data",
                data,
                "--clinic",
                "north",
                "--client",
                "gym",
                "--scope",
                "records:write,decisions:read,audit:read")
            .out()
            .strip();
    service =
        RunningService.start(
            TestSettings.in(data)
                .with(Catalogue.HOST, "localhost")
                .with(Catalogue.AUTHENTICATION, "true")
                .with(Catalogue.HOST_NAMES, "records.clinic.example")
                .with(Catalogue.TLS_KEY_STORE, certificate.toString())
                .with(Catalogue.TLS_KEY_STORE_PASSWORD, PASSWORD));
  }

  private static void keytool(String... what) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(Path.of(System.getProperty("java.home"), "bin", "keytool").toString()));
    command.addAll(List.of(what));
    command.addAll(List.of("-dname", "CN=localhost", "-ext", "san=dns:localhost,ip:127.0.0.1"));
    command.addAll(List.of("-validity", "2", "-storetype", "PKCS12", "-storepass", PASSWORD));
    command.addAll(List.of("-keystore", certificate.toString()));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(process.exitValue()).as(output).isZero();
  }

  @AfterAll
  static void stop() {
    service.stop();
    // After the last request the record can be looked at: its key was used, and its ledger holds.
    assertThat(Run.of("keys", "list", "--data", data).out())
        .contains("live")
        .doesNotContain("never");
    Run audit = Run.of("audit", "--data", data, "--clinic", "north");
    assertThat(audit.out()).contains("everything holds", "ledger.evenside.example/north");
    // Whoever names no clinic means all, and a name that is nobody's is no sound record.
    assertThat(Run.of("audit", "--data", data).out())
        .contains("everything holds", "ledger.evenside.example/north");
    Run nobody = Run.of("audit", "--data", data, "--clinic", "nroth");
    assertThat(nobody.exitCode()).isEqualTo(Main.FAILED);
    assertThat(nobody.err()).contains("nothing was checked", "nroth");
  }

  private static RequestSpecification https() {
    return RestAssured.given().trustStore(trusted).baseUri(service.url());
  }

  @Test
  void greeting_saysThatATokenIsNeeded() {
    assertThat(service.url()).startsWith("https://localhost:");
    assertThat(service.greeting()).contains("need a bearer token", data.toString());
  }

  @Test
  void record_isTakenWithAToken_andNotWithout() {
    https().get("/livez").then().statusCode(200);
    https().get("/v1/decisions").then().statusCode(401);
    https()
        .auth()
        .oauth2(token)
        .contentType("application/json")
        .body(Examples.kneeCase().getBytes(StandardCharsets.UTF_8))
        .put("/v1/cases/c")
        .then()
        .statusCode(201);
    https()
        .auth()
        .oauth2(token)
        .contentType("application/json")
        .header("Idempotency-Key", "one")
        .body(Examples.decisionRequest().getBytes(StandardCharsets.UTF_8))
        .post("/v1/cases/c/decisions")
        .then()
        .statusCode(201);
    https().auth().oauth2(token).get("/v1/ledger/checkpoint").then().statusCode(200);
  }

  @Test
  void host_otherThanAllowed_isRefused() {
    https().header("Host", "records.clinic.example:8443").get("/livez").then().statusCode(200);
    https().header("Host", "evil.example").get("/livez").then().statusCode(403);
    https().header("Origin", "https://elsewhere.example").get("/livez").then().statusCode(200);
  }

  @Test
  void connection_withoutTlsOrWithAnOldOne_isRefused() throws Exception {
    int port = port();
    assertThatThrownBy(() -> RestAssured.get("http://localhost:" + port + "/livez"))
        .isInstanceOf(Exception.class);
    assertThat(handshake(port, "TLSv1.3")).isEqualTo("TLSv1.3");
    assertThat(handshake(port, "TLSv1.2")).isEqualTo("TLSv1.2");
    assertThatThrownBy(() -> handshake(port, "TLSv1.1")).isInstanceOf(IOException.class);
  }

  private static int port() {
    return java.net.URI.create(service.url()).getPort();
  }

  private static String handshake(int port, String protocol) throws Exception {
    TrustManagerFactory trust =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    trust.init(trusted);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, trust.getTrustManagers(), null);
    try (SSLSocket socket =
        (SSLSocket) context.getSocketFactory().createSocket("localhost", port)) {
      socket.setEnabledProtocols(new String[] {protocol});
      socket.startHandshake();
      return socket.getSession().getProtocol();
    }
  }

  @Test
  void keyStore_unusable_isRefusedWithTheReason() throws Exception {
    assertThatThrownBy(() -> new Tls(certificate, "wrong").check())
        .hasMessageContaining("cannot be opened");
    assertThatThrownBy(() -> new Tls(folder.resolve("none"), "").check())
        .hasMessageContaining("cannot be read");
    Path noKey = folder.resolve("no-key.p12");
    try (var out = Files.newOutputStream(noKey)) {
      trusted.store(out, PASSWORD.toCharArray());
    }
    assertThatThrownBy(() -> new Tls(noKey, PASSWORD).check())
        .hasMessageContaining("holds no private key");
    assertThat(new Tls(certificate, PASSWORD).toString()).doesNotContain(PASSWORD);
  }
}

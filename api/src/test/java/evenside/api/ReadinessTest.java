package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.access.Authentication;
import evenside.api.http.Cursors;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import evenside.ledger.KeyFiles;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerSettings;
import evenside.readiness.ReadinessService;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import io.javalin.Javalin;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Each thing that a ready service needs, taken away from a running one: {@code /readyz} says 503
 * and why, {@code /livez} goes on, and all is well when the thing is back.
 */
class ReadinessTest {
  private static final Duration FAR = Duration.ofMinutes(3);

  @TempDir Path folder;

  private Instant now = Instant.now();
  private Store store;
  private Ledger ledger;
  private Operations operations;
  private Javalin app;
  private Javalin management;

  @BeforeEach
  void start() {
    store = Store.open(StoreSettings.inFolder(folder));
    Signing signing = new Signing(LedgerSettings.DEFAULT_NAME, Optional.empty());
    ledger = signing.open(store, folder, true);
    ledger.prepare("local");
    ReadinessService service = ReadinessService.of(LiveService.CONTRACT, store, ledger, () -> now);
    Settings settings = TestSettings.in(folder).with(Catalogue.MANAGEMENT_PORT, "0");
    operations =
        new Watch(store, ledger, signing, Place.of(settings), () -> now)
            .operations(service, settings, false);
    Api.Dependencies dependencies =
        new Api.Dependencies(
            service,
            new Cursors(new byte[32]),
            Authentication.none("local"),
            Api.Exchange.DEFAULT,
            operations);
    app = Api.create(dependencies).start("127.0.0.1", 0);
    management = Api.createManagement(dependencies).start("127.0.0.1", 0);
    assertThat(ready(app).statusCode()).as(ready(app).asString()).isEqualTo(200);
  }

  @AfterEach
  void stop() {
    QuickStop.of(app);
    QuickStop.of(management);
    ledger.close();
    store.close();
  }

  @Test
  void store_gone_isNotReady() {
    store.close();
    assertNotReady("The database does not answer.");
  }

  @Test
  void key_gone_isNotReadyUntilItIsBack() throws Exception {
    Path key = folder.resolve("ledger.key");
    Path away = folder.resolve("away");
    Files.move(key, away);
    assertNotReady("The key of the ledger is not in its place.");
    KeyFiles.create(key);
    assertNotReady("The key of the ledger is not in its place.");
    Files.delete(key);
    Files.move(away, key);
    assertThat(ready(app).statusCode()).isEqualTo(200);
  }

  @Test
  void ledger_otherThanSigned_isNotReady() throws Exception {
    byte[] kept = nodes();
    byte[] altered = kept.clone();
    altered[5] ^= 1;
    setNodes(altered);
    assertNotReady("The database does not hold what the ledger signed last.");
    setNodes(kept);
    assertThat(ready(app).statusCode()).isEqualTo(200);
  }

  @Test
  void clock_farBehindTheRecord_isNotReady() {
    Instant right = now;
    now = right.minus(FAR);
    assertNotReady("The clock of the machine is far off.");
    now = Instant.parse("1970-01-01T00:00:00Z");
    assertNotReady("The clock of the machine is far off.");
    now = right.minus(Duration.ofMinutes(1));
    assertThat(ready(app).statusCode()).isEqualTo(200);
  }

  @Test
  void stopping_isNotReady_andLetsGoOfConnections() {
    operations.draining().begin();
    assertNotReady("The service is stopping.");
    Response answer = RestAssured.get(url(app) + "/v1/schemas");
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.header("Connection")).isEqualTo("close");
  }

  @Test
  void management_servesTheNumbers_andTheMainPortDoesNot() {
    assertThat(RestAssured.get(url(app) + "/metrics").statusCode()).isEqualTo(404);
    assertThat(RestAssured.get(url(management) + "/metrics").asString())
        .contains(
            "evenside_http_requests_seconds_bucket{method=\"GET\",route=\"/readyz\",status=\"2xx\"",
            "evenside_store_connections_idle",
            "evenside_ledger_entries_total 1.0",
            "jvm_memory_used_bytes");
    assertThat(RestAssured.get(url(management) + "/v1/schemas").statusCode()).isEqualTo(404);
  }

  /** The hashes in the row of the newest entry, which make the root. */
  private byte[] nodes() throws SQLException {
    try (Connection connection = connect();
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery("select nodes from ledger_entry")) {
      row.next();
      return row.getBytes(1);
    }
  }

  private void setNodes(byte[] nodes) throws SQLException {
    try (Connection connection = connect();
        PreparedStatement update =
            connection.prepareStatement("update ledger_entry set nodes = ?")) {
      update.setBytes(1, nodes);
      assertThat(update.executeUpdate()).isEqualTo(1);
    }
  }

  private Connection connect() throws SQLException {
    StoreSettings settings = StoreSettings.inFolder(folder);
    return DriverManager.getConnection(settings.url(), settings.user(), settings.password());
  }

  private void assertNotReady(String reason) {
    for (Javalin server : List.of(app, management)) {
      Response answer = ready(server);
      assertThat(answer.statusCode()).isEqualTo(503);
      assertThat(answer.header("Retry-After")).isEqualTo("1");
      assertThat(answer.<String>path("detail")).contains(reason);
      assertThat(RestAssured.get(url(server) + "/livez").statusCode()).isEqualTo(200);
    }
  }

  private static Response ready(Javalin server) {
    return RestAssured.get(url(server) + "/readyz");
  }

  private static String url(Javalin server) {
    return "http://127.0.0.1:" + server.port();
  }
}

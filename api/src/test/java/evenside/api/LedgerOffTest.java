package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.access.Authentication;
import evenside.api.http.Cursors;
import evenside.readiness.ReadinessService;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import io.javalin.Javalin;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.InstantSource;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Without a key everything is recorded, nothing can be proved, and that is said. */
class LedgerOffTest {
  private static final HttpClient HTTP = HttpClient.newHttpClient();

  @TempDir static Path folder;
  private static Store store;
  private static Javalin app;

  @BeforeAll
  static void start() {
    store = Store.open(StoreSettings.inFolder(folder));
    InstantSource clock = InstantSource.fixed(LiveService.NOW);
    ReadinessService service = ReadinessService.of(LiveService.CONTRACT, store, clock);
    app =
        Api.create(
            new Api.Dependencies(service, new Cursors(new byte[32]), Authentication.none("local")));
    app.start("127.0.0.1", 0);
  }

  @AfterAll
  static void stop() {
    QuickStop.of(app);
    store.close();
  }

  private static HttpResponse<String> send(String method, String path, String body)
      throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + app.port() + path))
            .header("Content-Type", "application/json")
            .header("Idempotency-Key", path + body.hashCode())
            .method(method, HttpRequest.BodyPublishers.ofString(body))
            .build();
    return HTTP.send(request, HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void decision_isRecorded_withoutReceipt_andHasNoProof() throws Exception {
    assertThat(send("PUT", "/v1/cases/c", Examples.kneeCase()).statusCode()).isEqualTo(201);
    HttpResponse<String> decision =
        send("POST", "/v1/cases/c/decisions", Examples.decisionRequest());
    assertThat(decision.statusCode()).isEqualTo(201);
    assertThat(decision.headers().firstValue("Evenside-Ledger-Index")).isEmpty();
    String at = decision.headers().firstValue("Location").orElseThrow();
    assertThat(send("GET", at, "").statusCode()).isEqualTo(200);
    for (String proof : new String[] {"/evidence", "/evidence.tlog-proof"}) {
      HttpResponse<String> none = send("GET", at + proof, "");
      assertThat(none.statusCode()).isEqualTo(409);
      assertThat(none.body()).contains("while the ledger was off");
    }
    assertThat(send("GET", "/v1/ledger/checkpoint", "").statusCode()).isEqualTo(404);
    assertThat(send("GET", "/readyz", "").body()).contains("\"ledger\":\"off\"");
  }
}

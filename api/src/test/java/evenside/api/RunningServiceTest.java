package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.settings.Catalogue;
import evenside.note.SigningKey;
import evenside.store.database.StoreException;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Starting, stopping, starting again. */
class RunningServiceTest {
  @TempDir Path folder;

  @Test
  void record_outlivesARestart_andSoDoCursors() {
    RunningService first = start();
    RestAssured.given()
        .contentType("application/json")
        .body(Examples.kneeCase().getBytes(StandardCharsets.UTF_8))
        .put(first.url() + "/v1/cases/c")
        .then()
        .statusCode(201);
    for (int i = 0; i < 2; i++) {
      RestAssured.given()
          .contentType("application/json")
          .header("Idempotency-Key", "key-" + i)
          .body(Examples.decisionRequest().getBytes(StandardCharsets.UTF_8))
          .post(first.url() + "/v1/cases/c/decisions")
          .then()
          .statusCode(201);
    }
    byte[] before = RestAssured.get(first.url() + "/v1/cases/c").asByteArray();
    String cursor = RestAssured.get(first.url() + "/v1/decisions?limit=1").path("next");
    first.stop();
    RunningService second = start();
    assertThat(RestAssured.get(second.url() + "/v1/cases/c").asByteArray()).isEqualTo(before);
    RestAssured.get(second.url() + "/v1/decisions?after=" + cursor).then().statusCode(200);
    second.stop();
  }

  @Test
  void stopped_answersNoMore() {
    RunningService service = start();
    String url = service.url();
    assertThat(service.greeting()).contains(url, folder.toString());
    RestAssured.get(url + "/livez").then().statusCode(200);
    service.stop();
    assertThatThrownBy(() -> RestAssured.get(url + "/livez")).hasMessageContaining("refused");
  }

  @Test
  void port_inUse_isExplainedAndTheStoreLetGo() throws IOException {
    try (ServerSocket other = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      int port = other.getLocalPort();
      assertThatThrownBy(
              () ->
                  RunningService.start(
                      TestSettings.in(folder).with(Catalogue.PORT, Integer.toString(port))))
          .hasMessageContaining("Port already in use");
    }
    start().stop();
  }

  @Test
  void cursorKey_isMadeOnceAndKeptSecret() throws IOException {
    byte[] key = CursorKey.in(folder);
    assertThat(key).hasSize(32).isEqualTo(CursorKey.in(folder));
    assertThat(CursorKey.random()).isNotEqualTo(CursorKey.random());
    assertThat(Files.getPosixFilePermissions(folder.resolve("cursor.key"))).hasSize(2);
    try (var files = Files.list(folder)) {
      assertThat(files).hasSize(1);
    }
    Files.write(folder.resolve("cursor.key"), new byte[5]);
    assertThatThrownBy(() -> CursorKey.in(folder)).hasMessageContaining("32 bytes, not 5");
  }

  @Test
  void cursorKey_ofALedgerKey_isTheSameWhereverThatIsGiven() {
    SigningKey key = SigningKey.generate();
    byte[] derived = CursorKey.from(key);
    assertThat(derived).hasSize(32).isEqualTo(CursorKey.from(SigningKey.ofPem(key.toPem())));
    assertThat(derived).isNotEqualTo(CursorKey.from(SigningKey.generate()));
  }

  @Test
  void folder_thatCannotBeMade_isExplained() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "");
    assertThatThrownBy(() -> RunningService.start(TestSettings.in(file)))
        .isInstanceOf(StoreException.class);
  }

  /**
   * The invented clinic tells its stories: expected outcomes follow from the published bounds and
   * the numbers in its files, worked out by hand (for example {@code knee-06}: 135.0 / 150.0 is
   * exactly 90 %, which {@code >= 90} takes and {@code > 90} does not).
   */
  @Test
  void demo_answersAtEveryStage() {
    RunningService demo =
        RunningService.start(TestSettings.in(folder).with(Catalogue.DEMO, "true"));
    try {
      Response decisions = RestAssured.get(demo.url() + "/v1/decisions?limit=200");
      Map<String, String> outcomes = new TreeMap<>();
      for (Map<String, Object> decision : decisions.<List<Map<String, Object>>>path("items")) {
        Map<?, ?> set = (Map<?, ?>) decision.get("criteriaSet");
        outcomes.put(
            decision.get("caseId") + " " + set.get("id") + " " + set.get("version"),
            (String) decision.get("outcome"));
      }
      assertThat(outcomes)
          .containsExactlyInAnyOrderEntriesOf(
              Map.ofEntries(
                  Map.entry("knee-01 rambaud-2018-running 1", "met"),
                  Map.entry("knee-02 rambaud-2018-running 1", "not-met"),
                  Map.entry("knee-03 adams-2012-progression-entry 1", "not-met"),
                  Map.entry("knee-04 cristiani-2019-symmetry 1", "undetermined"),
                  Map.entry("knee-05 delaware-oslo 2020.1", "not-met"),
                  Map.entry("knee-06 delaware-oslo 2020.1", "met"),
                  Map.entry("knee-06 delaware-oslo 2016.1", "not-met"),
                  Map.entry("knee-07 delaware-oslo 2020.1", "met"),
                  Map.entry("knee-08 delaware-oslo 2020.1", "undetermined"),
                  Map.entry("knee-09 delaware-oslo 2020.1", "not-met"),
                  Map.entry("knee-10 delaware-oslo 2020.1", "undetermined"),
                  Map.entry("knee-11 toole-2017-young-athlete 1", "undetermined"),
                  Map.entry("knee-11 delaware-oslo 2020.1", "undetermined"),
                  Map.entry("knee-12 rambaud-2018-running 1", "not-met")));
      String cases = demo.url() + "/v1/cases/";
      assertThat(RestAssured.get(cases + "knee-05/advice").<String>path("outcome"))
          .isEqualTo("advance");
      assertThat(RestAssured.get(cases + "knee-12/advice").<String>path("outcome"))
          .isEqualTo("stop-and-refer");
      // Five tests, each better than the one before: enough for a line.
      assertThat(RestAssured.get(cases + "knee-05/progress").asString()).contains("\"readings\":5");
      assertThat(demo.greeting()).contains("invented");
    } finally {
      demo.stop();
    }
  }

  private RunningService start() {
    return RunningService.start(TestSettings.in(folder));
  }
}

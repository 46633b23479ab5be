package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.problem.ProblemType;
import io.restassured.response.Response;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A record sent twice is recorded once (the IETF draft on the Idempotency-Key header field). */
class IdempotencyTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String BATTERIES = "/v1/cases/c/batteries";
  private static final String DECISIONS = "/v1/cases/c/decisions";

  @BeforeAll
  static void recordCase() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
  }

  @Test
  void sameKeyAndBody_replaysTheFirstReply() {
    for (String path : List.of(BATTERIES, DECISIONS)) {
      Response first = send(path, "\"replay-" + path + "\"", body(path));
      Map<String, Long> after = records();
      Response second = send(path, "\"replay-" + path + "\"", body(path));
      first.then().statusCode(201).header("Idempotency-Replayed", equalTo(null));
      second
          .then()
          .statusCode(201)
          .header("Idempotency-Replayed", "true")
          .header("Location", first.header("Location"))
          .header("ETag", first.header("ETag"));
      assertThat(second.asByteArray()).isEqualTo(first.asByteArray());
      assertThat(records()).isEqualTo(after);
    }
  }

  /** The checkpoint of the first reply goes into its table when somebody asks for it again. */
  private static Map<String, Long> records() {
    Map<String, Long> rows = new TreeMap<>(SERVICE.rows());
    assertThat(rows.remove("ledger_checkpoint")).isNotNull();
    return rows;
  }

  @Test
  void sameKey_quotedOrBareOrOtherwiseSpaced_isTheSame() {
    Response first = send(DECISIONS, "\"8e03978e\"", Examples.decisionRequest());
    String spaced = Examples.decisionRequest().replace("{", "{ \n");
    Response second = send(DECISIONS, "8e03978e", spaced);
    second.then().statusCode(201).header("Idempotency-Replayed", "true");
    assertThat(second.asByteArray()).isEqualTo(first.asByteArray());
  }

  @Test
  void sameKeyWithOtherBodyOrPath_isRefusedAndStoresNothing() {
    send(DECISIONS, "reused", Examples.decisionRequest()).then().statusCode(201);
    Map<String, Long> before = SERVICE.rows();
    String other =
        Examples.changed(
            "valid/decision-request/by-milestone", json -> json.put("maxResultAgeDays", 7));
    send(DECISIONS, "reused", other)
        .then()
        .statusCode(422)
        .body("type", equalTo(ProblemType.IDEMPOTENCY_KEY_REUSED.uri()));
    send(BATTERIES, "reused", Examples.battery()).then().statusCode(422);
    assertThat(SERVICE.rows()).isEqualTo(before);
  }

  @Test
  void faultyRequest_doesNotUseUpItsKey() {
    send(DECISIONS, "mended", "{}").then().statusCode(422);
    send(DECISIONS, "mended", Examples.decisionRequest()).then().statusCode(201);
  }

  @Test
  void sameRecordId_withoutTheKey_isStillTheSameRecord() {
    Response first = SERVICE.record(Examples.battery()).post(BATTERIES);
    Map<String, Long> after = SERVICE.rows();
    Response second = SERVICE.record(Examples.battery()).post(BATTERIES);
    second.then().statusCode(200).header("Idempotency-Replayed", equalTo(null));
    assertThat(second.asByteArray()).isEqualTo(first.asByteArray());
    String other =
        Examples.changed(
            "valid/battery/strength-and-hops",
            json -> json.putObject("height").put("value", 181).put("unit", "cm"));
    SERVICE
        .record(other)
        .post(BATTERIES)
        .then()
        .statusCode(409)
        .body("type", equalTo(ProblemType.CONFLICT.uri()));
    assertThat(SERVICE.rows()).isEqualTo(after);
  }

  @Test
  void key_missing_isRefused() {
    for (String path : List.of(BATTERIES, DECISIONS)) {
      SERVICE
          .json(body(path))
          .post(path)
          .then()
          .statusCode(400)
          .body("type", equalTo(ProblemType.IDEMPOTENCY_KEY_MISSING.uri()));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"\"\"", "\"a", "a\"", "a b", "a,b", "\"a\\x\"", "\"a\";q=1", ":YQ==:x;y"})
  void key_malformed_isRefused(String key) {
    send(DECISIONS, key, Examples.decisionRequest())
        .then()
        .statusCode(400)
        .body("type", equalTo(ProblemType.BAD_IDEMPOTENCY_KEY.uri()));
  }

  @Test
  void manyEqualRequestsAtOnce_makeOneRecordWithEqualReplies() throws Exception {
    Map<String, Long> before = SERVICE.rows();
    Set<String> bodies = ConcurrentHashMap.newKeySet();
    Callable<Integer> request =
        () -> {
          Response answer = send(DECISIONS, "at-once", Examples.decisionRequest());
          if (answer.statusCode() == 201) {
            bodies.add(answer.asString());
          }
          return answer.statusCode();
        };
    ExecutorService threads = Executors.newFixedThreadPool(8);
    try {
      for (Future<Integer> status :
          threads.invokeAll(java.util.Collections.nCopies(100, request))) {
        assertThat(status.get()).isEqualTo(201);
      }
    } finally {
      threads.shutdownNow();
    }
    assertThat(bodies).hasSize(1);
    assertThat(SERVICE.rows().get("decision")).isEqualTo(before.get("decision") + 1);
  }

  @Test
  void firstRequestStillRunning_isToldToWait() throws Exception {
    AutoCloseable running = SERVICE.holdKey("in-flight");
    send(DECISIONS, "in-flight", Examples.decisionRequest())
        .then()
        .statusCode(409)
        .header("Retry-After", "1")
        .body("type", equalTo(ProblemType.REQUEST_IN_FLIGHT.uri()));
    running.close();
    send(DECISIONS, "in-flight", Examples.decisionRequest()).then().statusCode(201);
  }

  private static String body(String path) {
    return path.equals(BATTERIES)
        ? Examples.changed("valid/battery/strength-and-hops", json -> json.remove("recordId"))
        : Examples.decisionRequest();
  }

  private static Response send(String path, String key, String body) {
    return SERVICE.json(body).header("Idempotency-Key", key).post(path);
  }
}

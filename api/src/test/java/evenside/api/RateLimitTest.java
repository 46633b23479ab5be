package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.access.Authentication;
import evenside.api.access.Caller;
import evenside.api.access.Scope;
import evenside.api.http.RateLimit;
import evenside.api.http.Reply;
import evenside.api.http.Route;
import evenside.api.metrics.Metrics;
import evenside.api.openapi.Repository;
import evenside.api.problem.ProblemType;
import evenside.api.server.Draining;
import evenside.api.server.Front;
import evenside.api.server.ServerLimits;
import io.javalin.Javalin;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * A token bucket for each client: so many at once, so many a second after that. Expected counts
 * follow from the rate by hand; RFC 6585, section 4, for the status.
 */
class RateLimitTest {
  private static final int PER_SECOND = 2;
  private static final int AT_ONCE = 5;
  private static final AtomicLong NOW = new AtomicLong();

  private static Javalin app;

  @BeforeAll
  static void start() {
    Operations operations =
        new Operations(
            List.of(),
            new Metrics(),
            false,
            new Draining(),
            ServerLimits.DEFAULT,
            new RateLimit(PER_SECOND, AT_ONCE, NOW::get));
    List<Route> routes =
        List.of(
            Route.get("/v1/thing", call -> Reply.of(JsonNodeFactory.instance.objectNode()))
                .needing(Scope.DECISIONS_READ),
            Route.get("/livez", call -> Reply.of(JsonNodeFactory.instance.objectNode()))
                .openToAnyone());
    // The credential is the client's name here, and its clinic.
    Authentication byName =
        values -> Caller.of(values.get(0), "program", Set.of(Scope.DECISIONS_READ));
    app = Api.create(byName, operations, routes, Front.LOOPBACK).start("127.0.0.1", 0);
  }

  @AfterAll
  static void stop() {
    QuickStop.of(app);
  }

  @BeforeEach
  void rest() {
    NOW.addAndGet(3_600_000_000_000L);
  }

  @Test
  void burst_overTheBucket_isRefusedWithTheTimeToWait() {
    for (int i = 0; i < AT_ONCE; i++) {
      assertThat(get("a").statusCode()).isEqualTo(200);
    }
    Response refused = get("a");
    assertThat(refused.statusCode()).isEqualTo(429);
    assertThat(refused.<String>path("type")).isEqualTo(ProblemType.TOO_MANY_REQUESTS.uri());
    assertThat(refused.header("Retry-After")).isEqualTo("1");
    assertThat(refused.contentType()).isEqualTo("application/problem+json");
  }

  @Test
  void client_other_isNotAffected() {
    for (int i = 0; i < AT_ONCE + 3; i++) {
      get("a");
    }
    assertThat(get("a").statusCode()).isEqualTo(429);
    // The same program in another clinic is another client.
    assertThat(get("b").statusCode()).isEqualTo(200);
  }

  @Test
  void tokens_comeBackAtTheRate() {
    for (int i = 0; i < AT_ONCE; i++) {
      get("a");
    }
    NOW.addAndGet(499_000_000L);
    assertThat(get("a").statusCode()).isEqualTo(429);
    // A refused call took nothing.
    NOW.addAndGet(1_000_000L);
    assertThat(get("a").statusCode()).isEqualTo(200);
    assertThat(get("a").statusCode()).isEqualTo(429);
  }

  @Test
  void health_isNeverTooOften() {
    for (int i = 0; i < 3 * AT_ONCE; i++) {
      assertThat(RestAssured.get(url("/livez")).statusCode()).isEqualTo(200);
    }
  }

  @Test
  void status_isDocumentedWhereItCanCome() {
    Repository.openApi()
        .path("paths")
        .properties()
        .forEach(
            path -> {
              for (JsonNode operation : path.getValue()) {
                assertThat(operation.path("responses").has("429"))
                    .as(path.getKey())
                    .isEqualTo(path.getKey().startsWith("/v1/"));
              }
            });
  }

  private static Response get(String client) {
    return RestAssured.given().header("Authorization", client).get(url("/v1/thing"));
  }

  private static String url(String path) {
    return "http://127.0.0.1:" + app.port() + path;
  }
}

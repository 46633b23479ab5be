package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.access.Authentication;
import evenside.api.http.Route;
import evenside.api.openapi.Repository;
import evenside.api.problem.ProblemType;
import evenside.api.server.Front;
import io.javalin.Javalin;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Whatever goes wrong, before the routes or in them, is answered as a problem (RFC 9457). */
class ProblemsTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String HOST = "Host: localhost\r\nConnection: close\r\n";

  @ParameterizedTest
  @EnumSource
  void type_hasItsPageAsTextAndAsData(ProblemType type) {
    String path = "/problems/" + type.slug();
    SERVICE
        .http()
        .get(path)
        .then()
        .statusCode(200)
        .contentType("application/json")
        .body("type", equalTo(type.uri()), "title", equalTo(type.title()));
    SERVICE
        .http()
        .accept("text/html,application/json;q=0.9")
        .get(path)
        .then()
        .statusCode(200)
        .contentType("text/html;charset=utf-8")
        .body(containsString(type.uri()));
  }

  @Test
  void types_areThoseOfTheFile() {
    JsonNode file =
        JsonMapper.shared()
            .readTree(Repository.path("api/src/main/resources/evenside/api/problems.json"));
    List<String> slugs = Stream.of(ProblemType.values()).map(ProblemType::slug).toList();
    assertThat(file.propertyNames()).containsExactlyElementsOf(slugs);
    for (ProblemType type : ProblemType.values()) {
      assertThat(type.status()).as(type.slug()).isBetween(400, 599);
      assertThat(List.of(type.title(), type.meaning(), type.remedy()))
          .as(type.slug())
          .allSatisfy(text -> assertThat(text).hasSizeGreaterThan(10));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/v2",
        "/v1",
        "/nope",
        "/livez/",
        "//livez",
        "/v1/cases/",
        "/v1/cases/a%2Fb",
        "/livez;a=b"
      })
  void path_unknown_isNotFound(String path) {
    RawExchange answer =
        RawExchange.with(SERVICE.port(), "GET " + path + " HTTP/1.1\r\n" + HOST + "\r\n");
    assertThat(answer.status()).isEqualTo(404);
    assertThat(answer.body()).contains(ProblemType.NOT_FOUND.uri());
  }

  @ParameterizedTest
  @ValueSource(strings = {"DELETE", "PATCH", "POST", "PROPFIND"})
  void method_notTaken_isRefusedWithTheMethodsThatAre(String method) {
    SERVICE
        .http()
        .request(method, "/v1/cases/c")
        .then()
        .statusCode(405)
        .header("Allow", "GET, PUT, HEAD, OPTIONS")
        .body("type", equalTo(ProblemType.METHOD_NOT_ALLOWED.uri()));
  }

  @ParameterizedTest
  @ValueSource(strings = {"case/", "nope", "00000000-0000-7000-8000-00000000000G", "1"})
  void id_thatCannotBeOne_isNotFound(String id) {
    SERVICE.http().get("/v1/decisions/" + id).then().statusCode(404);
    SERVICE.http().get("/v1/batteries/" + id).then().statusCode(404);
  }

  static Stream<Arguments> malformedRequests() {
    return Stream.of(
        Arguments.of("no HTTP at all", "GARBAGE\r\n\r\n", 400),
        Arguments.of("no Host", "GET /livez HTTP/1.1\r\nConnection: close\r\n\r\n", 400),
        Arguments.of("two Hosts", "GET /livez HTTP/1.1\r\nHost: a\r\n" + HOST + "\r\n", 400),
        Arguments.of("bad escape", "GET /v1/cases/%zz HTTP/1.1\r\n" + HOST + "\r\n", 400),
        Arguments.of("not UTF-8", "GET /v1/cases/%c3%28 HTTP/1.1\r\n" + HOST + "\r\n", 400),
        Arguments.of(
            "bad length", "GET /livez HTTP/1.1\r\n" + HOST + "Content-Length: abc\r\n\r\n", 400),
        Arguments.of(
            "bad chunk",
            "POST /v1/checks/case HTTP/1.1\r\n"
                + HOST
                + "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n",
            400),
        Arguments.of(
            "upgrade", "GET /livez HTTP/1.1\r\n" + HOST + "Sec-WebSocket-Version: 13\r\n\r\n", 400),
        Arguments.of(
            "long URL beyond the buffer",
            "GET /" + "a".repeat(20_000) + " HTTP/1.1\r\n" + HOST + "\r\n",
            414),
        Arguments.of(
            "large headers",
            "GET /livez HTTP/1.1\r\n" + HOST + "X: " + "a".repeat(20_000) + "\r\n\r\n",
            431),
        Arguments.of(
            "announced too large",
            "POST /v1/checks/case HTTP/1.1\r\n"
                + HOST
                + "Content-Type: application/json\r\nContent-Length: 10737418240\r\n\r\n{",
            413));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("malformedRequests")
  void request_malformed_isAProblemToo(String name, String request, int status) {
    RawExchange answer = RawExchange.with(SERVICE.port(), request);
    assertThat(answer.status()).as(answer.text()).isEqualTo(status);
    assertThat(answer.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(answer.header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(answer.text().toLowerCase(java.util.Locale.ROOT)).doesNotContain("jetty", "server:");
    JsonNode problem = JsonMapper.shared().readTree(answer.body());
    assertThat(problem.path("status").asInt()).isEqualTo(status);
    assertThat(problem.path("instance").asString())
        .isEqualTo("urn:uuid:" + answer.header("Request-Id"));
  }

  @Test
  void failure_unforeseen_tellsTheClientNothing() {
    List<Route> routes = new ArrayList<>();
    routes.add(
        Route.get(
                "/fails",
                call -> {
                  throw new IllegalStateException("secret of a patient");
                })
            .openToAnyone());
    routes.add(
        Route.get(
                "/overflows",
                call -> {
                  throw new StackOverflowError("secret of a patient");
                })
            .openToAnyone());
    Javalin app =
        Api.create(Authentication.none("local"), Operations.with(List.of()), routes, Front.LOOPBACK)
            .start("127.0.0.1", 0);
    try {
      for (String path : List.of("/fails", "/overflows")) {
        Response answer = RestAssured.get("http://127.0.0.1:" + app.port() + path);
        answer
            .then()
            .statusCode(500)
            .contentType("application/problem+json")
            .body("type", equalTo(ProblemType.INTERNAL.uri()))
            .body("instance", equalTo("urn:uuid:" + answer.header("Request-Id")));
        assertThat(answer.asString()).doesNotContain("secret", "Exception", "evenside.api.http");
      }
    } finally {
      QuickStop.of(app);
    }
  }
}

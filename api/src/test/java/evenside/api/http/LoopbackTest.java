package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.RawExchange;
import evenside.api.problem.ProblemType;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Without credentials only this machine, by its own names, is answered. */
class LoopbackTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @ParameterizedTest
  @ValueSource(strings = {"localhost", "LOCALHOST:80", "127.0.0.1:8080", "[::1]", "[::1]:8080"})
  void host_ofThisMachine_isAnswered(String host) {
    SERVICE.http().header("Host", host).get("/livez").then().statusCode(200);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "evil.example",
        "localhost.evil.example",
        "127.0.0.1.evil.example",
        "127.0.0.2",
        "0.0.0.0",
        "[::2]"
      })
  void host_foreign_isRefused(String host) {
    SERVICE
        .http()
        .header("Host", host)
        .get("/livez")
        .then()
        .statusCode(403)
        .body("type", equalTo(ProblemType.FOREIGN_HOST.uri()));
  }

  @Test
  void host_missingInOldHttp_isRefused() {
    assertThat(RawExchange.with(SERVICE.port(), "GET /livez HTTP/1.0\r\n\r\n").status())
        .isEqualTo(403);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"https://evil.example", "null", "http://localhost:1", "https://127.0.0.1"})
  void origin_foreign_isRefused(String origin) {
    SERVICE
        .json(Examples.kneeCase())
        .header("Origin", origin)
        .put("/v1/cases/from-a-page")
        .then()
        .statusCode(403)
        .body("type", equalTo(ProblemType.FOREIGN_ORIGIN.uri()));
    SERVICE.http().get("/v1/cases/from-a-page").then().statusCode(404);
  }

  @Test
  void origin_own_isAnswered() {
    SERVICE
        .http()
        .header("Origin", "http://127.0.0.1:" + SERVICE.port())
        .get("/livez")
        .then()
        .statusCode(200);
  }

  /** RFC 9112, 2.2: a line ends in CR LF; a receiver may take LF alone, and two may differ then. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "GET /livez HTTP/1.1\nHost: localhost\nConnection: close\n\n",
        "GET /livez HTTP/1.1\r\nHost: localhost\r\nX-A: b\nConnection: close\r\n\r\n",
        "GET /livez HTTP/1.1\r\nHost: localhost\r\nX-A: b\rX-B: c\r\nConnection: close\r\n\r\n"
      })
  void lineThatDoesNotEndInCrLf_isRefused(String request) {
    assertThat(RawExchange.with(SERVICE.port(), request).status()).isEqualTo(400);
  }
}

package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.RawExchange;
import evenside.api.problem.ProblemType;
import io.restassured.response.Response;
import io.restassured.response.ValidatableResponse;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.hamcrest.Matchers;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Requests are read strictly, before anything of them is used. */
class StrictRequestsTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String CHECK = "/v1/checks/case";

  @ParameterizedTest
  @ValueSource(
      strings = {
        "application/json",
        "application/json;charset=utf-8",
        "Application/JSON; charset=UTF-8",
        "application/json; charset=\"utf-8\""
      })
  void contentType_json_isTaken(String type) {
    sent(type).statusCode(200);
  }

  private static ValidatableResponse sent(String contentType) {
    return SERVICE
        .http()
        .header("Content-Type", contentType)
        .body("{}".getBytes(StandardCharsets.UTF_8))
        .post(CHECK)
        .then();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "text/plain",
        "application/xml",
        "application/json;charset=utf-16",
        "application/json; charset=iso-8859-1",
        "application/json; profile=x",
        "application/problem+json",
        "application/json, text/plain",
        "json"
      })
  void contentType_other_isRefused(String type) {
    sent(type)
        .statusCode(415)
        .header("Accept", "application/json")
        .body("type", equalTo(ProblemType.UNSUPPORTED_MEDIA_TYPE.uri()));
  }

  @Test
  void contentType_missing_isRefused() {
    RawExchange answer =
        RawExchange.with(
            SERVICE.port(),
            "POST /v1/checks/case HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n"
                + "Content-Length: 2\r\n\r\n{}");
    assertThat(answer.status()).isEqualTo(415);
  }

  /** The server in front of the routes takes the first, and the router fails on it. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "GET /v1/cases/%u0041 HTTP/1.1",
        "GET /v1/cases/a%u002fb HTTP/1.1",
        "GET  HTTP/1.1",
        "GET /livez",
        "GET /livez HTTP/3.0"
      })
  void requestLine_odd_isTheClientsFault(String line) {
    RawExchange answer =
        RawExchange.with(SERVICE.port(), line + "\r\nHost: localhost\r\nConnection: close\r\n\r\n");
    assertThat(answer.status()).isEqualTo(400);
    assertThat(answer.body()).contains(ProblemType.BAD_REQUEST.uri());
  }

  /** Else a GET, which a proxy lets through, would be taken for a PUT. */
  @Test
  void method_isThatOfTheRequestLine() {
    SERVICE
        .http()
        .header("X-HTTP-Method-Override", "PUT")
        .get("/v1/cases/overridden")
        .then()
        .statusCode(400)
        .body("detail", containsString("X-HTTP-Method-Override"));
  }

  @Test
  void body_compressed_isRefused() {
    SERVICE
        .json("{}")
        .header("Content-Encoding", "gzip")
        .post(CHECK)
        .then()
        .statusCode(415)
        .header("Accept-Encoding", "identity");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      value = {
        "*/*                                      | 200",
        "application/*                            | 200",
        "application/json                         | 200",
        "APPLICATION/JSON                         | 200",
        "text/html, application/json;q=0.1        | 200",
        "application/json;q=0                     | 406",
        "*/*, application/json;q=0                | 406",
        "text/*                                   | 406",
        "text/html                                | 406",
        "application/problem+json                 | 406",
        "application/json;q=nonsense              | 406"
      })
  void accept_isNegotiated(String accept, int status) {
    SERVICE.http().header("Accept", accept).get("/livez").then().statusCode(status);
  }

  @ParameterizedTest
  @CsvSource({
    "/v1/decisions?caseld=c, unknown-parameter, caseld",
    "/v1/decisions?caseId=c&caseId=d, bad-parameter, caseId",
    "/v1/decisions?limit=0, bad-parameter, limit",
    "/v1/decisions?limit=201, bad-parameter, limit",
    "/v1/decisions?limit=1e2, bad-parameter, limit",
    "/v1/decisions?limit=, bad-parameter, limit",
    "/v1/decisions?limit=99999999999999999999, bad-parameter, limit",
    "/v1/decisions?outcome=MET, bad-parameter, outcome",
    "/v1/decisions?milestone=Start, bad-parameter, milestone",
    "/v1/decisions?criteriaSet=a/b/c, bad-parameter, criteriaSet",
    "/v1/decisions?from=2026-02-30T00:00:00Z, bad-parameter, from",
    "/v1/decisions?from=2026-02-01, bad-parameter, from",
    "/v1/decisions?to=2026-02-01T00:00:00, bad-parameter, to",
    "/v1/decisions?caseId=%FF, bad-parameter, UTF-8",
    "/v1/decisions?caseId=a%2Fb, bad-parameter, caseId",
    "/livez?verbose, unknown-parameter, verbose",
    "/v1/schemas/1.0/case?v=1, unknown-parameter, v",
    "/v1/cases/c?v=1, unknown-parameter, v"
  })
  void query_faulty_isRefusedByName(String path, String slug, String named) {
    SERVICE
        .http()
        .get(path)
        .then()
        .statusCode(400)
        .body("type", equalTo("https://evenside.example/problems/" + slug))
        .body("detail", containsString(named));
  }

  /**
   * The rules of RFC 8259, of I-JSON (RFC 7493: no duplicate names, no lone surrogates) and the
   * limits of this service; each text named by its fault. Codes are those of {@code
   * catalogue/fault-codes.json}.
   */
  static Stream<Arguments> notJson() {
    return Stream.of(
        not("json.empty", ""),
        not("json.empty", " \n"),
        not("json.malformed", "{"),
        not("json.malformed", "{\"a\":}"),
        not("json.malformed", "{'a':1}"),
        not("json.malformed", "{\"a\":1,}"),
        not("json.malformed", "[1,]"),
        not("json.malformed", "{a:1}"),
        not("json.malformed", "// x\n{}"),
        not("json.malformed", "NaN"),
        not("json.malformed", "{\"a\":01}"),
        not("json.malformed", "{\"a\":+1}"),
        not("json.malformed", "{\"a\":.5}"),
        not("json.malformed", "{\"a\":\"\t\"}"),
        not("json.malformed", "{\"a\":\"\\x41\"}"),
        not("json.trailing-text", "{} {}"),
        not("json.trailing-text", "{}}"),
        not("json.trailing-text", "{} x"),
        not("json.duplicate-name", "{\"a\":1,\"a\":1}"),
        not("json.duplicate-name", "{\"a\":1,\"\\u0061\":2}"),
        not("json.lone-surrogate", "{\"a\":\"\\ud800\"}"),
        not("json.lone-surrogate", "{\"a\":\"\\udc00\"}"),
        not("json.too-deep", "[".repeat(33) + "]".repeat(33)),
        not("json.text-too-long", "[\"" + "a".repeat(8_193) + "\"]"),
        not("json.name-too-long", "{\"" + "a".repeat(129) + "\":1}"),
        not("json.number-too-long", "[" + "1".repeat(101) + "]"),
        not("json.number-out-of-range", "[1e99999999]"),
        not("json.number-out-of-range", "[1e21]"),
        not("json.number-too-precise", "[1.23456789012345678]"),
        not("json.too-many-tokens", "[" + "0,".repeat(50_000) + "0]"),
        bytes("json.byte-order-mark", 0xEF, 0xBB, 0xBF, '{', '}'),
        bytes("json.not-utf-8", '"', 0xFF, '"'),
        bytes("json.not-utf-8", '"', 0xC0, 0xAF, '"'),
        bytes("json.not-utf-8", '"', 0xED, 0xA0, 0x80, '"'),
        bytes("json.not-utf-8", '"', 0xF4, 0x90, 0x80, 0x80, '"'));
  }

  @ParameterizedTest(name = "{0} [{index}]")
  @MethodSource("notJson")
  void body_notJson_isRefusedWithCodeAndPlace(String code, byte[] body) {
    for (String path : new String[] {CHECK, "/v1/assessments"}) {
      Response answer = SERVICE.http().contentType("application/json").body(body).post(path);
      answer
          .then()
          .statusCode(400)
          .body("type", equalTo(ProblemType.NOT_JSON.uri()))
          .body("code", equalTo(code));
      if (code.equals("json.malformed")) {
        assertThat(answer.<Integer>path("line")).isPositive();
        assertThat(answer.<Integer>path("column")).isPositive();
      }
    }
  }

  @Test
  void body_notJson_isNeverAFailureOfTheServiceWhateverItsBytes() {
    byte[] good = Examples.kneeCase().getBytes(StandardCharsets.UTF_8);
    Map<String, Long> before = SERVICE.rows();
    for (int length = 0; length < good.length; length += 7) {
      byte[] cut = java.util.Arrays.copyOf(good, length);
      int status =
          SERVICE
              .http()
              .contentType("application/json")
              .body(cut)
              .put("/v1/cases/cut")
              .statusCode();
      assertThat(status).as("cut to " + length).isEqualTo(400);
    }
    assertThat(SERVICE.rows()).isEqualTo(before);
  }

  @ParameterizedTest
  @ValueSource(strings = {"null", "true", "0", "\"x\"", "[]", "{}"})
  void body_ofAnotherShape_isCheckedNotRefused(String body) {
    SERVICE.json(body).post(CHECK).then().statusCode(200).body("valid", equalTo(false));
    SERVICE.json(body).put("/v1/cases/shape").then().statusCode(422);
  }

  @Test
  void body_atTheLimitOfSize_isReadAndOneByteMoreIsNot() {
    String pad = " ".repeat((1 << 20) - 2);
    SERVICE.json("{}" + pad).post(CHECK).then().statusCode(200);
    SERVICE.json("{}" + pad + " ").post(CHECK).then().statusCode(413);
  }

  @Test
  void body_chunkedBeyondTheLimit_isRefusedWhileItComes() {
    String chunk = "10000\r\n" + " ".repeat(0x10000) + "\r\n";
    RawExchange answer =
        RawExchange.with(
            SERVICE.port(),
            "POST /v1/checks/case HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n"
                + "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
                + chunk.repeat(16)
                + "1\r\n \r\n0\r\n\r\n");
    assertThat(answer.status()).isEqualTo(413);
  }

  /** RFC 9112, section 6.1: a coding that is not understood must not be passed over. */
  @Test
  void body_withATransferCodingBesideChunked_isRefused() {
    for (String coding : List.of("gzip, chunked", "chunked")) {
      RawExchange answer =
          RawExchange.with(
              SERVICE.port(),
              "POST /v1/checks/case HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n"
                  + "Content-Type: application/json\r\nTransfer-Encoding: "
                  + coding
                  + "\r\n\r\n2\r\n{}\r\n0\r\n\r\n");
      assertThat(answer.status()).isEqualTo(coding.equals("chunked") ? 200 : 415);
    }
  }

  @Test
  void body_compressed_isCalledSo_withTheHeaderAndWithout() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
      gzip.write("{}".getBytes(StandardCharsets.UTF_8));
    }
    SERVICE
        .http()
        .contentType("application/json")
        .body(bytes.toByteArray())
        .post(CHECK)
        .then()
        .statusCode(400)
        .body("detail", containsString("compressed with gzip, and no Content-Encoding"));
    SERVICE
        .http()
        .contentType("application/json")
        .header("Content-Encoding", "gzip")
        .body(bytes.toByteArray())
        .post(CHECK)
        .then()
        .statusCode(415)
        .body("detail", containsString("Compressed bodies are not taken"));
  }

  @Test
  void id_thatCannotBeOne_isNotFoundWithTheReason() {
    SERVICE
        .json(Examples.kneeCase())
        .urlEncodingEnabled(false)
        .put("/v1/cases/Jane%20Doe")
        .then()
        .statusCode(404)
        .body("detail", containsString("without spaces"))
        .body("detail", Matchers.not(containsString("Jane")));
  }

  private static Arguments not(String code, String text) {
    return Arguments.of(code, text.getBytes(StandardCharsets.UTF_8));
  }

  private static Arguments bytes(String code, int... units) {
    byte[] body = new byte[units.length];
    for (int i = 0; i < units.length; i++) {
      body[i] = (byte) units[i];
    }
    return Arguments.of(code, body);
  }
}

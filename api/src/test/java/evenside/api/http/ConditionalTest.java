package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.problem.ProblemType;
import io.restassured.response.Response;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tags, digests, conditions, caching (RFC 9110, 9111, 9530). */
class ConditionalTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static String decision = "";
  private static String battery = "";

  @BeforeAll
  static void record() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    battery = SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").header("Location");
    decision =
        SERVICE.record(Examples.decisionRequest()).post("/v1/cases/c/decisions").header("Location");
  }

  static List<String> documents() {
    return List.of(
        "/v1/schemas",
        "/v1/schemas.zip",
        "/v1/schemas/1.0/battery",
        "/v1/schemas/1.0/common",
        "/v1/measures",
        "/v1/measures/single-hop-distance",
        "/v1/criteria-sets",
        "/v1/criteria-sets/delaware-oslo/2020.1",
        "/v1/cases/c",
        battery,
        decision,
        "/openapi.yaml",
        "/problems/not-found");
  }

  @ParameterizedTest
  @MethodSource("documents")
  void document_carriesItsHashAndIsNotSentTwice(String path) throws Exception {
    Response full = SERVICE.http().get(path);
    byte[] sha256 = MessageDigest.getInstance("SHA-256").digest(full.asByteArray());
    String tag = '"' + Base64.getUrlEncoder().withoutPadding().encodeToString(sha256) + '"';
    full.then()
        .statusCode(200)
        .header("ETag", tag)
        .header("Repr-Digest", "sha-256=:" + Base64.getEncoder().encodeToString(sha256) + ":");
    for (String condition : List.of(tag, "W/" + tag, "\"x\", " + tag, "*")) {
      Response again = SERVICE.http().header("If-None-Match", condition).get(path);
      again.then().statusCode(304).header("ETag", tag);
      assertThat(again.asByteArray()).isEmpty();
      assertThat(again.header("Cache-Control")).isEqualTo(full.header("Cache-Control"));
    }
    SERVICE.http().header("If-None-Match", "\"other\"").get(path).then().statusCode(200);
  }

  @ParameterizedTest
  @MethodSource("documents")
  void head_mirrorsGet(String path) {
    Response full = SERVICE.http().get(path);
    Response head = SERVICE.http().head(path);
    assertThat(head.statusCode()).isEqualTo(200);
    assertThat(head.asByteArray()).isEmpty();
    assertThat(stable(head)).isEqualTo(stable(full));
    assertThat(Integer.parseInt(head.header("Content-Length")))
        .isEqualTo(full.asByteArray().length);
  }

  @Test
  void head_ofNothing_isNotFoundWithoutBody() {
    Response head = SERVICE.http().head("/v1/cases/nope");
    assertThat(head.statusCode()).isEqualTo(404);
    assertThat(head.asByteArray()).isEmpty();
  }

  @Test
  void options_listsTheMethods() {
    Response options = SERVICE.http().options("/v1/cases/c/batteries");
    options.then().statusCode(204).header("Allow", "GET, HEAD, OPTIONS, POST");
    assertThat(options.header("Content-Type")).isNull();
  }

  @Test
  void cacheControl_isPublicForWhatIsPublishedAndPrivateForWhatIsNot() {
    String immutable = "public, max-age=31536000, immutable";
    assertThat(cache("/v1/schemas/1.0/case")).isEqualTo(immutable);
    assertThat(cache("/v1/criteria-sets/delaware-oslo/2020.1")).isEqualTo(immutable);
    assertThat(cache("/v1/measures")).isEqualTo("public, no-cache");
    for (String path :
        List.of("/v1/cases/c", battery, decision, "/v1/decisions", "/v1/cases/c/batteries")) {
      assertThat(cache(path)).as(path).isEqualTo("private, no-cache");
    }
    assertThat(cache("/livez")).isEqualTo("no-store");
    assertThat(cache("/nope")).isEqualTo("no-store");
  }

  @Test
  void document_isLinkedToItsSchema() {
    assertThat(SERVICE.http().get(decision).header("Link"))
        .isEqualTo("</v1/schemas/1.0/decision>; rel=\"describedby\"");
    SERVICE.http().get("/v1/schemas/1.0/decision").then().statusCode(200);
  }

  @Test
  void case_replaced_needsTheTagOfTheCurrentRevision() {
    Response created = put("revised", 1990, null);
    created.then().statusCode(201).header("Location", "/v1/cases/revised");
    put("revised", 1990, null).then().statusCode(200).header("ETag", created.header("ETag"));
    put("revised", 1991, null)
        .then()
        .statusCode(428)
        .body("type", equalTo(ProblemType.PRECONDITION_REQUIRED.uri()))
        .body("detail", containsString("If-Match"));
    put("revised", 1991, "W/" + created.header("ETag")).then().statusCode(412);
    put("revised", 1991, "\"nonsense\"").then().statusCode(412);
    Response second = put("revised", 1991, "\"x\", " + created.header("ETag"));
    second.then().statusCode(200).body("revision", equalTo(2));
    put("revised", 1992, created.header("ETag"))
        .then()
        .statusCode(412)
        .body("type", equalTo(ProblemType.PRECONDITION_FAILED.uri()));
    put("revised", 1993, "*").then().statusCode(200).body("revision", equalTo(3));
    SERVICE.http().get("/v1/cases/revised").then().body("case.birthYear", equalTo(1993));
  }

  @ParameterizedTest
  @ValueSource(strings = {"*", "\"AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA\""})
  void case_absent_doesNotMatch(String condition) {
    put("absent", 1990, condition).then().statusCode(412);
    SERVICE.http().get("/v1/cases/absent").then().statusCode(404);
  }

  @Test
  void digest_ofTheRequest_isChecked() throws Exception {
    byte[] sha256 =
        MessageDigest.getInstance("SHA-256")
            .digest(Examples.kneeCase().getBytes(java.nio.charset.StandardCharsets.UTF_8));
    String right = "sha-256=:" + Base64.getEncoder().encodeToString(sha256) + ":";
    String wrong = "sha-256=:" + "A".repeat(43) + "=:";
    for (String header : List.of("Content-Digest", "Repr-Digest")) {
      digested(header, right).then().statusCode(200);
      digested(header, "md5=:AAAA:, " + right).then().statusCode(200);
      digested(header, "sha-512=:AAAA:").then().statusCode(200);
      for (String refused :
          List.of(wrong, "sha-256=AAAA", "sha-256=:AAAA:", right + ", " + wrong)) {
        digested(header, refused)
            .then()
            .statusCode(400)
            .body("type", equalTo(ProblemType.DIGEST_MISMATCH.uri()));
      }
    }
  }

  private static Response digested(String header, String value) {
    return SERVICE.json(Examples.kneeCase()).header(header, value).post("/v1/checks/case");
  }

  private static Response put(String caseId, int birthYear, String ifMatch) {
    String body = Examples.changed("valid/case/minimal", json -> json.put("birthYear", birthYear));
    var request = SERVICE.json(body);
    return (ifMatch == null ? request : request.header("If-Match", ifMatch))
        .put("/v1/cases/" + caseId);
  }

  private static String cache(String path) {
    return SERVICE.http().get(path).header("Cache-Control");
  }

  /** Headers that do not change from one request to the next. */
  private static Map<String, String> stable(Response answer) {
    Map<String, String> headers = new TreeMap<>();
    answer.headers().forEach(header -> headers.put(header.getName(), header.getValue()));
    headers.keySet().removeAll(List.of("Date", "Request-Id"));
    return headers;
  }
}

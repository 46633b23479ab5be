package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.LiveService;
import io.restassured.response.Response;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Answers with gzip, a form of their own (RFC 9110, sections 8.4, 8.8.3 and 12.5.3; RFC 9530). */
class CompressionTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String LARGE = "/v1/measures";

  @Test
  void largeAnswer_isCodedForWhoAsks_andHoldsTheSameBytes() throws Exception {
    Response plain = get(LARGE, "identity");
    Response coded = get(LARGE, "gzip");
    assertThat(plain.header("Content-Encoding")).isNull();
    assertThat(coded.header("Content-Encoding")).isEqualTo("gzip");
    assertThat(inflated(coded)).isEqualTo(plain.asByteArray());
    assertThat(coded.asByteArray().length).isLessThan(plain.asByteArray().length / 2);
    assertThat(plain.header("Vary")).isEqualTo("Accept-Encoding");
    assertThat(coded.header("Vary")).isEqualTo("Accept-Encoding");
  }

  @Test
  void codedForm_hasATagAndADigestOfItsOwn() throws Exception {
    Response plain = get(LARGE, "identity");
    Response coded = get(LARGE, "gzip");
    assertThat(coded.header("ETag")).isNotEqualTo(plain.header("ETag"));
    byte[] sha256 = MessageDigest.getInstance("SHA-256").digest(coded.asByteArray());
    assertThat(coded.header("Repr-Digest"))
        .isEqualTo("sha-256=:" + Base64.getEncoder().encodeToString(sha256) + ":");
    assertThat(get(LARGE, "gzip").asByteArray()).isEqualTo(coded.asByteArray());
  }

  @Test
  void tag_ofOneForm_isNotThatOfTheOther() {
    String plain = get(LARGE, "identity").header("ETag");
    String coded = get(LARGE, "gzip").header("ETag");
    assertThat(conditional("gzip", coded).statusCode()).isEqualTo(304);
    assertThat(conditional("gzip", coded).header("ETag")).isEqualTo(coded);
    assertThat(conditional("identity", plain).statusCode()).isEqualTo(304);
    assertThat(conditional("gzip", plain).statusCode()).isEqualTo(200);
    assertThat(conditional("identity", coded).statusCode()).isEqualTo(200);
  }

  @Test
  void change_underTheTagOfTheCodedForm_isTaken() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/g").then().statusCode(201);
    String tag = SERVICE.http().get("/v1/cases/g").header("ETag");
    String coded = tag.substring(0, tag.length() - 1) + "-gzip\"";
    String changed = Examples.changed("valid/case/minimal", json -> json.put("sex", "male"));
    SERVICE
        .json(changed)
        .header("If-Match", coded.replace("-gzip", "-zip"))
        .put("/v1/cases/g")
        .then()
        .statusCode(412);
    SERVICE.json(changed).header("If-Match", coded).put("/v1/cases/g").then().statusCode(200);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "gzip|true",
        "GZIP|true",
        "deflate, gzip;q=0.5|true",
        "*|true",
        "gzip;q=0|false",
        "*;q=0|false",
        "gzip;q=0, *|false",
        "gzip;q=0.2, identity;q=0.5|false",
        "gzip;q=x|false",
        "identity|false",
        "br|false",
        "x-gzip-not|false"
      })
  void wish_isUnderstood(String accept, boolean coded) {
    assertThat(get(LARGE, accept).header("Content-Encoding")).isEqualTo(coded ? "gzip" : null);
  }

  @Test
  void smallAnswer_isNeverCoded() {
    Response small = get("/livez", "gzip");
    assertThat(small.header("Content-Encoding")).isNull();
    assertThat(small.header("Vary")).isNull();
  }

  @Test
  void head_hasTheHeadersOfTheCodedForm() {
    Response get = get(LARGE, "gzip");
    Response head = SERVICE.http().header("Accept-Encoding", "gzip").head(LARGE);
    for (String name : new String[] {"ETag", "Content-Encoding", "Content-Length", "Vary"}) {
      assertThat(head.header(name)).as(name).isEqualTo(get.header(name));
    }
  }

  @Test
  void problem_withManyFaults_isCodedToo() throws Exception {
    String faulty = "{" + "\"a%d\":1,".repeat(99).formatted(numbers(99)) + "\"z\":1}";
    Response answer =
        SERVICE.json(faulty).header("Accept-Encoding", "gzip").put("/v1/cases/faulty");
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(new String(inflated(answer), StandardCharsets.UTF_8)).contains("member.unknown");
  }

  @ParameterizedTest
  @ValueSource(strings = {"gzip", "deflate", "br", "identity, gzip"})
  void request_withACoding_isRefused(String coding) {
    SERVICE
        .json(Examples.kneeCase())
        .header("Content-Encoding", coding)
        .put("/v1/cases/coded")
        .then()
        .statusCode(415)
        .header("Accept-Encoding", "identity");
  }

  private static Object[] numbers(int count) {
    Object[] numbers = new Object[count];
    for (int i = 0; i < count; i++) {
      numbers[i] = i;
    }
    return numbers;
  }

  private static Response get(String path, String acceptEncoding) {
    return SERVICE.http().header("Accept-Encoding", acceptEncoding).get(path);
  }

  private static Response conditional(String acceptEncoding, String tag) {
    return SERVICE
        .http()
        .header("Accept-Encoding", acceptEncoding)
        .header("If-None-Match", tag)
        .get(LARGE);
  }

  private static byte[] inflated(Response answer) throws IOException {
    try (GZIPInputStream gzip =
        new GZIPInputStream(new ByteArrayInputStream(answer.asByteArray()))) {
      return gzip.readAllBytes();
    }
  }
}

package evenside.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import evenside.example.Clinic;
import evenside.schemas.StrictJson;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;

class CanonicalJsonTest {
  private static final JsonMapper ANY = JsonMapper.builder().build();

  /** Documents published with RFC 8785; see {@code jcs/README.md}. */
  @ParameterizedTest
  @ValueSource(strings = {"arrays", "french", "structures", "unicode", "values", "weird"})
  void publishedDocument_hasThePublishedBytes(String name) throws IOException {
    byte[] bytes = CanonicalJson.bytes(ANY.readTree(resource("input/" + name + ".json")));
    assertThat(bytes).isEqualTo(resource("output/" + name + ".json"));
    String hex = new String(resource("outhex/" + name + ".txt"), StandardCharsets.US_ASCII);
    assertThat(bytes).isEqualTo(HexFormat.of().parseHex(hex.replaceAll("\\s", "")));
  }

  static Stream<JsonNode> published() {
    return Clinic.CONTRACT.criteriaSets().stream();
  }

  @ParameterizedTest
  @MethodSource("published")
  void canonicalBytes_areTheirOwnCanonicalForm(JsonNode document) {
    byte[] once = CanonicalJson.bytes(document);
    JsonNode again = StrictJson.read(once, StrictJson.Limits.OWN);
    assertThat(CanonicalJson.bytes(again)).isEqualTo(once);
  }

  @Test
  void spellingOfANumber_doesNotMatter() {
    assertThat(text("[1.10, 1.1, 11e-1, 0.11E+1, 100e-2, -0, -0.0]"))
        .isEqualTo("[1.1,1.1,1.1,1.1,1,0,0]");
  }

  @Test
  void membersAreOrderedByTheirUtf16Units() {
    assertThat(text("{\"\\ufb33\":1,\"\\ud83d\\ude00\":2,\"b\":3,\"a\":4,\"\":5}"))
        .isEqualTo("{\"\":5,\"a\":4,\"b\":3,\"\ud83d\ude00\":2,\"\ufb33\":1}");
  }

  @Test
  void control_isEscapedAsShortAsCanBe() {
    assertThat(text("\"\\u0008\\u0009\\u000a\\u000c\\u000d\\u0000\\u001f\\u007f\\/\\\\\\\"\""))
        .isEqualTo("\"\\b\\t\\n\\f\\r\\u0000\\u001f\u007f/\\\\\\\"\"");
  }

  @Test
  void emptyContainers_haveNoSpace() {
    assertThat(text("{\"a\" : [ ], \"b\" : { }, \"c\" : [ { } ]}"))
        .isEqualTo("{\"a\":[],\"b\":{},\"c\":[{}]}");
  }

  @Test
  void whatHasNoCanonicalForm_isRefused() {
    JsonNodeFactory nodes = JsonNodeFactory.instance;
    for (JsonNode node :
        new JsonNode[] {
          nodes.numberNode(Double.NaN),
          nodes.numberNode(new java.math.BigDecimal("1e400")),
          nodes.stringNode("half \ud83d"),
          nodes.stringNode("\ude00 half"),
          nodes.missingNode(),
          nodes.binaryNode(new byte[] {1})
        }) {
      assertThatIllegalArgumentException().isThrownBy(() -> CanonicalJson.bytes(node));
    }
  }

  /** SHA-256 of the empty text and of abc: FIPS 180-2, appendix B. */
  @Test
  void fingerprint_isThePublishedOne() {
    assertThat(Document.sha256("abc".getBytes(StandardCharsets.US_ASCII)))
        .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    Document document = Document.of(ANY.readTree("{\"b\":1,\"a\":2.50}"));
    assertThat(document).hasToString("{\"a\":2.5,\"b\":1}");
    assertThat(document).isEqualTo(Document.ofCanonical(document.bytes()));
    assertThat(document.sha256()).isEqualTo(Document.sha256(document.bytes()));
  }

  private static String text(String json) {
    return new String(CanonicalJson.bytes(ANY.readTree(json)), StandardCharsets.UTF_8);
  }

  private static byte[] resource(String name) throws IOException {
    try (InputStream in = CanonicalJsonTest.class.getResourceAsStream("/jcs/" + name)) {
      return in.readAllBytes();
    }
  }
}

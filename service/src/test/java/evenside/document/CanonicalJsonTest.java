package evenside.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import evenside.example.Clinic;
import evenside.schemas.StrictJson;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.random.RandomGenerator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

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

  /** A property of any canonical form; the documents are the published criteria sets. */
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

  /** The writer takes short cuts; this one, made of the platform's parts, takes none. */
  @Test
  void shortCuts_giveTheSameBytes() {
    RandomGenerator random = new SplittableRandom(8785);
    for (int i = 0; i < 20_000; i++) {
      JsonNode tree = tree(random, 3);
      assertThat(new String(CanonicalJson.bytes(tree), StandardCharsets.UTF_8))
          .isEqualTo(plainly(tree));
    }
  }

  private static JsonNode tree(RandomGenerator random, int depth) {
    JsonNodeFactory nodes = JsonNodeFactory.instance;
    return switch (random.nextInt(depth > 0 ? 8 : 6)) {
      case 0 -> nodes.numberNode(random.nextInt());
      case 1 -> nodes.numberNode(random.nextLong() >> random.nextInt(64));
      case 2 -> nodes.numberNode(BigDecimal.valueOf(random.nextLong(10_000_000_000L), 6));
      case 3 -> nodes.numberNode(Math.scalb(random.nextDouble() - 0.5, random.nextInt(200) - 100));
      case 4 -> nodes.booleanNode(random.nextBoolean());
      case 5 -> nodes.stringNode(word(random));
      case 6 -> {
        ArrayNode array = nodes.arrayNode();
        for (int i = random.nextInt(5); i > 0; i--) {
          array.add(tree(random, depth - 1));
        }
        yield array;
      }
      default -> {
        ObjectNode object = nodes.objectNode();
        for (int i = random.nextInt(6); i > 0; i--) {
          object.set(word(random), tree(random, depth - 1));
        }
        yield object;
      }
    };
  }

  private static String word(RandomGenerator random) {
    int[] edges = {0, 0x1F, ' ', '"', '\\', 'a', 'z', 0x7F, 0x80, 0x7FF, 0x800, 0xFFFD, 0x1F9B5};
    StringBuilder word = new StringBuilder();
    for (int i = random.nextInt(6); i > 0; i--) {
      word.appendCodePoint(edges[random.nextInt(edges.length)]);
    }
    return word.toString();
  }

  private static String plainly(JsonNode node) {
    if (node.isArray()) {
      return node.valueStream()
          .map(CanonicalJsonTest::plainly)
          .collect(Collectors.joining(",", "[", "]"));
    }
    if (node.isObject()) {
      TreeMap<String, String> members = new TreeMap<>();
      node.properties().forEach(one -> members.put(one.getKey(), plainly(one.getValue())));
      return members.entrySet().stream()
          .map(
              one ->
                  plainly(JsonNodeFactory.instance.stringNode(one.getKey())) + ":" + one.getValue())
          .collect(Collectors.joining(",", "{", "}"));
    }
    if (node.isNumber()) {
      return shortest(node.numberValue().doubleValue());
    }
    return lowerCaseEscapes(ANY.writeValueAsString(node));
  }

  /** The platform writes the digits of an escape in capitals. */
  private static String lowerCaseEscapes(String json) {
    return Pattern.compile("\\\\u00..")
        .matcher(json)
        .replaceAll(escape -> "\\" + escape.group().toLowerCase(Locale.ROOT));
  }

  /** The first of the roundings to 1, 2, 3… digits that reads back, laid out as ECMAScript does. */
  private static String shortest(double number) {
    if (number == 0) {
      return "0";
    }
    BigDecimal digits = new BigDecimal(number);
    for (int i = 1; i <= 17; i++) {
      BigDecimal rounded = new BigDecimal(number).round(new MathContext(i, RoundingMode.HALF_EVEN));
      if (rounded.doubleValue() == number) {
        digits = rounded.stripTrailingZeros();
        break;
      }
    }
    int exponent = digits.precision() - digits.scale() - 1;
    if (exponent >= -6 && exponent < 21) {
      return digits.toPlainString();
    }
    String all = digits.unscaledValue().abs().toString();
    String fraction = all.length() == 1 ? "" : "." + all.substring(1);
    return (number < 0 ? "-" : "")
        + all.charAt(0)
        + fraction
        + "e"
        + (exponent < 0 ? "" : "+")
        + exponent;
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

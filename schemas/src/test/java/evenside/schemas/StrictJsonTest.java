package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import evenside.schemas.StrictJson.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * Strictness, case by case. The grammar cases follow RFC 8259 and are named after its sections; the
 * encoding cases follow RFC 3629 section 3 and 4; the limits are this contract's own.
 */
class StrictJsonTest {

  static Stream<Arguments> taken() {
    return Stream.of(
        arguments("RFC 8259 2: blanks around tokens", " \t\r\n{ \"a\" : [ 1 , 2 ] } \n"),
        arguments("RFC 8259 2: a bare string is a text", "\"a\""),
        arguments("RFC 8259 3: the three literals", "[true,false,null]"),
        arguments("RFC 8259 4: empty name", "{\"\":1}"),
        arguments("RFC 8259 4: same name in two objects", "[{\"a\":1},{\"a\":{\"a\":2}}]"),
        arguments("RFC 8259 4: names differing by case", "{\"a\":1,\"A\":2}"),
        arguments("RFC 8259 5: empty array", "[]"),
        arguments("RFC 8259 6: minus zero, fraction, exponent", "[-0,-0.0,1.5e3,1E-7,2e+2]"),
        arguments("RFC 8259 7: all short escapes", "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\""),
        arguments("RFC 8259 7: escaped pair", "\"\\uD834\\uDD1E\""),
        arguments("RFC 8259 7: pair as itself", "\"\uD834\uDD1E\""),
        arguments("RFC 8259 7: escaped NUL", "\"\\u0000\""),
        arguments("RFC 8259 7: line separator U+2028", "\"\u2028\""),
        arguments("RFC 8259 8.1: noncharacter U+FFFF", "\"\uFFFF\""));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource
  void taken(String clause, String text) {
    assertThat(StrictJson.read(text.getBytes(StandardCharsets.UTF_8), Limits.REQUEST)).isNotNull();
  }

  static Stream<Arguments> malformed() {
    return Stream.of(
        arguments("2: object not closed", "{\"a\":1"),
        arguments("2: string not closed", "\"abc"),
        arguments("2: only a comma", ","),
        arguments("2: form feed as blank", "[1,\f2]"),
        arguments("2: no-break space as blank", "[1,\u00A02]"),
        arguments("2: comment", "{\"a\":1/*one*/}"),
        arguments("2: line comment", "// x\n1"),
        arguments("3: literal in capitals", "[True]"),
        arguments("3: literal cut short", "[nul]"),
        arguments("3: undefined", "[undefined]"),
        arguments("4: trailing comma in object", "{\"a\":1,}"),
        arguments("4: name without quotes", "{a:1}"),
        arguments("4: name in single quotes", "{'a':1}"),
        arguments("4: number as name", "{1:1}"),
        arguments("4: no value", "{\"a\":}"),
        arguments("4: no colon", "{\"a\" 1}"),
        arguments("4: two commas", "{\"a\":1,,\"b\":2}"),
        arguments("5: trailing comma in array", "[1,]"),
        arguments("5: leading comma", "[,1]"),
        arguments("5: closed by the wrong bracket", "[1}"),
        arguments("5: no comma", "[1 2]"),
        arguments("6: leading zero", "[01]"),
        arguments("6: leading zero, negative", "[-01]"),
        arguments("6: leading plus", "[+1]"),
        arguments("6: leading point", "[.5]"),
        arguments("6: trailing point", "[1.]"),
        arguments("6: no digits in exponent", "[1e]"),
        arguments("6: only a minus", "[-]"),
        arguments("6: hexadecimal", "[0x1F]"),
        arguments("6: not a number", "[NaN]"),
        arguments("6: infinity", "[Infinity]"),
        arguments("6: minus infinity", "[-Infinity]"),
        arguments("6: decimal comma", "[1,5,]"),
        arguments("7: string in single quotes", "['a']"),
        arguments("7: line break in string", "[\"a\nb\"]"),
        arguments("7: tab in string", "[\"a\tb\"]"),
        arguments("7: unknown escape", "[\"\\x41\"]"),
        arguments("7: escape of three digits", "[\"\\u12\"]"),
        arguments("8.2: half a surrogate pair in a name", "{\"\\uD800\":1}"),
        arguments("8.2: low half in a name", "{\"a\\uDC00\":1}"),
        arguments("7: escape with a letter beyond f", "[\"\\u12G4\"]"));
  }

  @ParameterizedTest(name = "RFC 8259 {0}")
  @MethodSource
  void malformed(String clause, String text) {
    NotJson refused = refused(text.getBytes(StandardCharsets.UTF_8), Limits.REQUEST);
    assertThat(refused.code()).isEqualTo("json.malformed");
    assertThat(refused.location()).isPresent();
  }

  static Stream<Arguments> refused() {
    return Stream.of(
        arguments("RFC 8259 2: nothing", "", "json.empty"),
        arguments("RFC 8259 2: only blanks", " \r\n\t", "json.empty"),
        arguments("RFC 8259 2: two values", "{} {}", "json.trailing-text"),
        arguments("RFC 8259 2: a bracket too many", "[1]]", "json.trailing-text"),
        arguments("RFC 8259 2: a word after the value", "{} end", "json.trailing-text"),
        arguments("RFC 8259 4: name twice", "{\"a\":1,\"a\":1}", "json.duplicate-name"),
        arguments(
            "RFC 8259 4: name twice, once escaped",
            "{\"a\":1,\"\\u0061\":2}",
            "json.duplicate-name"),
        arguments(
            "RFC 8259 4: name twice, deep",
            "[{\"b\":{\"a\":1,\"c\":0,\"a\":2}}]",
            "json.duplicate-name"),
        arguments("RFC 8259 8.2: high half alone", "[\"\\uD800\"]", "json.lone-surrogate"),
        arguments("RFC 8259 8.2: low half alone", "[\"\\uDC00\"]", "json.lone-surrogate"),
        arguments("RFC 8259 8.2: halves swapped", "[\"\\uDD1E\\uD834\"]", "json.lone-surrogate"),
        arguments(
            "RFC 8259 8.2: two high halves", "[\"\\uD834\\uD834\\uDD1E\"]", "json.lone-surrogate"),
        arguments("range: 1e400", "[1e400]", "json.number-out-of-range"),
        arguments("range: minus 1e21", "[-1e21]", "json.number-out-of-range"),
        arguments("range: 1e-21", "[1e-21]", "json.number-out-of-range"),
        arguments("range: 22 digits", "[1000000000000000000000]", "json.number-out-of-range"),
        arguments(
            "range: exponent beyond any scale", "[1e99999999999]", "json.number-out-of-range"),
        arguments(
            "range: exponent at the edge of int", "[1e2147483647]", "json.number-out-of-range"),
        arguments("range: tiny at the edge of int", "[1e-2147483647]", "json.number-out-of-range"),
        arguments("digits: 18 of them", "[1.00000000000000001]", "json.number-too-precise"),
        arguments("digits: a long integer", "[123456789012345678]", "json.number-too-precise"));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource
  void refused(String clause, String text, String code) {
    assertThat(refused(text.getBytes(StandardCharsets.UTF_8), Limits.REQUEST).code())
        .isEqualTo(code);
  }

  static Stream<Arguments> wrongBytes() {
    return Stream.of(
        arguments("RFC 8259 8.1: byte order mark", "EFBBBF7B7D", "json.byte-order-mark"),
        arguments("RFC 3629 3: overlong slash", "22C0AF22", "json.not-utf-8"),
        arguments("RFC 3629 3: overlong NUL", "22C08022", "json.not-utf-8"),
        arguments("RFC 3629 3: encoded surrogate", "22EDA08022", "json.not-utf-8"),
        arguments("RFC 3629 3: beyond U+10FFFF", "22F490808022", "json.not-utf-8"),
        arguments("RFC 3629 4: cut short", "22E282", "json.not-utf-8"),
        arguments("RFC 3629 4: stray continuation", "228022", "json.not-utf-8"),
        arguments("RFC 3629 4: byte FF", "22FF22", "json.not-utf-8"),
        arguments("Latin-1 umlaut", "22E422", "json.not-utf-8"));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource
  void wrongBytes(String clause, String hex, String code) {
    assertThat(refused(HexFormat.of().parseHex(hex), Limits.REQUEST).code()).isEqualTo(code);
  }

  @ParameterizedTest
  @ValueSource(strings = {"UTF-16", "UTF-16LE", "UTF-16BE", "UTF-32LE", "UTF-32BE"})
  void wider_encodings_are_refused(String encoding) {
    byte[] bytes = "{\"a\":1}".getBytes(Charset.forName(encoding));
    assertThat(refused(bytes, Limits.REQUEST).code()).isEqualTo("json.not-utf-8");
  }

  /** The first two bytes of gzip: RFC 1952, section 2.3.1. */
  @Test
  void compressed_bytes_are_called_so() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
      gzip.write("{\"a\":1}".getBytes(StandardCharsets.UTF_8));
    }
    NotJson refused = refused(bytes.toByteArray(), Limits.REQUEST);
    assertThat(refused.code()).isEqualTo("json.not-utf-8");
    assertThat(refused).hasMessageContainingAll("gzip", "Content-Encoding");
  }

  static Stream<Arguments> limits() {
    return Stream.of(
        arguments(
            "json.too-deep", "[".repeat(32) + "]".repeat(32), "[".repeat(33) + "]".repeat(33)),
        arguments("json.too-deep", nested(31), nested(32)),
        arguments("json.text-too-long", quoted(8_192), quoted(8_193)),
        arguments("json.name-too-long", "{" + quoted(128) + ":1}", "{" + quoted(129) + ":1}"),
        arguments("json.number-too-long", "0." + "0".repeat(98), "0." + "0".repeat(99)),
        arguments("json.number-too-precise", "1".repeat(17), "1".repeat(18)),
        arguments("json.number-out-of-range", "9e20", "1e21"),
        arguments("json.number-out-of-range", "1e-20", "9e-21"),
        arguments("json.too-many-tokens", ones(49_998), ones(49_999)),
        arguments("json.too-large", padded(1 << 20), padded((1 << 20) + 1)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource
  void limits(String code, String atLimit, String beyond) {
    assertThat(StrictJson.read(atLimit.getBytes(StandardCharsets.UTF_8), Limits.REQUEST))
        .isNotNull();
    assertThat(refused(beyond.getBytes(StandardCharsets.UTF_8), Limits.REQUEST).code())
        .isEqualTo(code);
  }

  @Test
  void numbers_keep_their_decimal_value() {
    JsonNode numbers = read("[0.1, 182.40, 1e2, -0, 12345678901234567, 0e999999999]");
    assertThat(numbers.get(0).decimalValue()).isEqualByComparingTo(new BigDecimal("0.1"));
    assertThat(numbers.get(1).decimalValue()).isEqualByComparingTo("182.4");
    assertThat(numbers.get(2).decimalValue()).isEqualByComparingTo("100");
    assertThat(numbers.get(3).decimalValue()).isEqualByComparingTo("0");
    assertThat(numbers.get(4).longValue()).isEqualTo(12_345_678_901_234_567L);
    assertThat(numbers.get(5).decimalValue()).isEqualTo(BigDecimal.ZERO);
  }

  @ParameterizedTest
  @ValueSource(strings = {"{", "[1", "{\"a\"", "{\"a\":\"b", "-", "1e", "[{\"a\":1}"})
  void text_cut_off_on_the_way_is_called_so(String text) {
    assertThat(refused(text.getBytes(StandardCharsets.UTF_8), Limits.REQUEST))
        .hasMessageContaining("cut off");
  }

  /** The words are the parser's, and it speaks of its settings and of what it read. */
  @ParameterizedTest
  @ValueSource(strings = {"{]", "[}", "// c\n{}", "{\"subject\":Jane}", "[NaN]", "'Jane'", "Jane"})
  void refusal_says_nothing_of_the_parser_nor_of_what_was_sent(String text) {
    assertThat(refused(text.getBytes(StandardCharsets.UTF_8), Limits.REQUEST).getMessage())
        .startsWith("The text is not well-formed JSON here: ")
        .doesNotContain("REDACTED", "Feature", "Source", "Jane");
  }

  @Test
  void refusal_names_the_place() {
    assertThat(
            refused(
                    "{\n  \"a\": 1,\n  \"a\": 2\n}".getBytes(StandardCharsets.UTF_8),
                    Limits.REQUEST)
                .location())
        .isEqualTo(Optional.of(new NotJson.Location(3, 3)));
    assertThat(refused(HexFormat.of().parseHex("5B0A22FF225D"), Limits.REQUEST).location())
        .isEqualTo(Optional.of(new NotJson.Location(2, 2)));
  }

  /** Whatever the bytes, the answer is a tree or a {@link NotJson}; 20 000 damaged documents. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void damaged_bytes_never_throw_anything_else(long seed) {
    Random random = new Random(seed);
    byte[] whole =
        Corpus.everything("battery").document().toString().getBytes(StandardCharsets.UTF_8);
    int refused = 0;
    for (int i = 0; i < 5_000; i++) {
      try {
        StrictJson.read(damaged(whole, random), Limits.REQUEST);
      } catch (NotJson expected) {
        refused++;
      }
    }
    assertThat(refused).isGreaterThan(1_000);
  }

  private static byte[] damaged(byte[] whole, Random random) {
    byte[] bytes = whole.clone();
    for (int i = 0; i <= random.nextInt(4); i++) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
    }
    return bytes;
  }

  @Test
  void limits_must_be_positive() {
    assertThatThrownBy(() -> Limits.REQUEST.withMaxBytes(0))
        .isInstanceOf(IllegalArgumentException.class);
  }

  private static JsonNode read(String text) {
    return StrictJson.read(text.getBytes(StandardCharsets.UTF_8), Limits.REQUEST);
  }

  private static NotJson refused(byte[] bytes, Limits limits) {
    return catchThrowableOfType(NotJson.class, () -> StrictJson.read(bytes, limits));
  }

  private static String nested(int objects) {
    return "[" + "{\"a\":".repeat(objects) + "1" + "}".repeat(objects) + "]";
  }

  private static String quoted(int length) {
    return "\"" + "a".repeat(length) + "\"";
  }

  private static String ones(int count) {
    return "[" + "1,".repeat(count - 1) + "1]";
  }

  private static String padded(int bytes) {
    return "1" + " ".repeat(bytes - 1);
  }
}

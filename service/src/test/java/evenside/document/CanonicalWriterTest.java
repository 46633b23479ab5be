package evenside.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import org.erdtman.jcs.JsonCanonicalizer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Numbers and escapes by the published vectors are in the tests of number and tree. */
class CanonicalWriterTest {
  private static final JsonMapper ANY = JsonMapper.builder().build();

  @Test
  void members_areWrittenAsTheyCome() {
    String text =
        text(
            json -> {
              json.object().put("a", "x").put("b", 1.50).put("c", true);
              json.name("d").array().number(1).array().end().object().end().nothing().end();
              json.name("e").texts(List.of("p", "q")).name("f").object().put("a", 2).end().end();
            });
    assertThat(text)
        .isEqualTo(
            "{\"a\":\"x\",\"b\":1.5,\"c\":true,\"d\":[1,[],{},null],\"e\":[\"p\",\"q\"],"
                + "\"f\":{\"a\":2}}");
  }

  /** The order of RFC 8785 section 3.2.3: by UTF-16 units, so a pair comes before U+FB33. */
  @Test
  void namesInUtf16Order_areTaken() {
    assertThat(
            text(
                json ->
                    put(json.object(), "", "A", "a", "ab", "\u20ac", "\ud83d\ude00", "\ufb33")
                        .end()))
        .startsWith("{\"\":0,\"A\":0,");
  }

  private static CanonicalWriter put(CanonicalWriter json, String... names) {
    for (String name : names) {
      json.put(name, 0);
    }
    return json;
  }

  static Stream<List<String>> outOfOrder() {
    return Stream.of(
        List.of("b", "a"),
        List.of("a", "a"),
        List.of("a", ""),
        List.of("note", "notMet"),
        List.of("\ufb33", "\ud83d\ude00"));
  }

  /** Invented names; the order is that of RFC 8785, by UTF-16 units. */
  @ParameterizedTest
  @MethodSource("outOfOrder")
  void namesInAnotherOrder_areRefused(List<String> names) {
    assertThatIllegalStateException()
        .isThrownBy(() -> text(json -> put(json.object(), names.toArray(String[]::new)).end()))
        .withMessageContaining("does not come after");
  }

  /** The order is that of one object, not of those in it or around it. */
  @Test
  void eachObject_hasAnOrderOfItsOwn() {
    String text =
        text(
            json -> {
              json.object().name("b").object().put("z", 1).end();
              json.name("c").array().object().put("a", 1).end().object().put("a", 1).end().end();
              json.end();
            });
    assertThat(text).isEqualTo("{\"b\":{\"z\":1},\"c\":[{\"a\":1},{\"a\":1}]}");
  }

  static Stream<Consumer<CanonicalWriter>> noValues() {
    return Stream.of(
        json -> {},
        json -> json.object(),
        json -> json.array(),
        json -> json.object().name("a"),
        json -> json.object().name("a").end(),
        json -> json.object().text("a").end(),
        json -> json.object().put("a", 1).number(2).end(),
        json -> json.object().name("a").name("b").number(2).end(),
        json -> json.array().name("a").number(2).end(),
        json -> json.array().number(1).name("a").number(2).end(),
        json -> json.name("a").number(2),
        json -> json.number(1).number(2),
        json -> json.number(1).end(),
        json -> json.array().end().end());
  }

  /** Invented misuses, to exercise the refusal. */
  @ParameterizedTest
  @MethodSource("noValues")
  void whatIsNoValue_isRefused(Consumer<CanonicalWriter> content) {
    assertThatIllegalStateException().isThrownBy(() -> text(content));
  }

  @Test
  void whatIsRefused_leavesNothingBehind() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> text(json -> json.array().text("half \ud83d").end()));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> text(json -> json.object().put("a", Double.NaN).end()));
    assertThat(text(json -> json.array().number(1).end())).isEqualTo("[1]");
  }

  /** A writer of a part may itself need bytes of something else. */
  @Test
  void writersWithinWriters_doNotMeet() {
    AtomicReference<String> inner = new AtomicReference<>();
    String outer =
        text(
            json -> {
              json.array().number(1);
              inner.set(text(other -> other.object().put("a", "in").end()));
              json.number(2).end();
            });
    assertThat(outer).isEqualTo("[1,2]");
    assertThat(inner).hasValue("{\"a\":\"in\"}");
  }

  /** Invented days, against the text of the platform’s own date. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-08-19",
        "1000-01-01",
        "9999-12-31",
        "0999-12-31",
        "+10000-01-01",
        "-0001-02-03"
      })
  void day_isWrittenAsThePlatformPrintsIt(String day) {
    assertThat(text(json -> json.day(LocalDate.parse(day)))).isEqualTo('"' + day + '"');
  }

  @Test
  void manyLevelsAndLongTexts_haveRoom() {
    String text =
        text(
            json -> {
              for (int i = 0; i < 100; i++) {
                json.object().name("a");
              }
              json.text("é".repeat(200_000));
              for (int i = 0; i < 100; i++) {
                json.end();
              }
            });
    assertThat(text)
        .isEqualTo("{\"a\":".repeat(100) + '"' + "é".repeat(200_000) + '"' + "}".repeat(100));
  }

  /**
   * What is written in order, and a tree of the same in any order, have the bytes that a reference
   * gives for the text as another writer has it. The reference takes lists and objects only.
   *
   * <p>Source: java-json-canonicalization 1.1, which RFC 8785 names among its implementations (from
   * memory).
   */
  @Test
  void randomContent_hasTheBytesOfTheReferenceAndOfItsTree() throws IOException {
    RandomGenerator random = new SplittableRandom(3);
    for (int i = 0; i < 5_000; i++) {
      Object content = List.of(content(random, 4));
      byte[] written = CanonicalWriter.bytes(json -> write(json, content));
      JsonNode tree = ANY.valueToTree(content);
      assertThat(written).isEqualTo(new JsonCanonicalizer(tree.toString()).getEncodedUTF8());
      assertThat(written).isEqualTo(CanonicalJson.bytes(tree));
      assertThat(CanonicalJson.bytes(ANY.readTree(written))).isEqualTo(written);
    }
  }

  private static Object content(RandomGenerator random, int depth) {
    return switch (random.nextInt(depth > 0 ? 6 : 4)) {
      case 0 -> random.nextInt(-1_000_000, 1_000_000) / Math.pow(10, random.nextInt(12));
      case 1 -> random.nextBoolean();
      case 2 -> random.nextDouble() * Math.pow(10, random.nextInt(-20, 25));
      case 3 -> word(random);
      case 4 -> {
        List<Object> items = new ArrayList<>();
        for (int i = random.nextInt(5); i > 0; i--) {
          items.add(content(random, depth - 1));
        }
        yield items;
      }
      default -> {
        Map<String, Object> members = new TreeMap<>();
        for (int i = random.nextInt(6); i > 0; i--) {
          members.put(word(random), content(random, depth - 1));
        }
        yield members;
      }
    };
  }

  private static String word(RandomGenerator random) {
    int[] edges = {0, 0x1F, ' ', '"', '\\', 'a', 'z', 0x7F, 0x80, 0x7FF, 0x800, 0xFFFD, 0x1F9B5};
    StringBuilder word = new StringBuilder();
    for (int i = random.nextInt(12); i > 0; i--) {
      word.appendCodePoint(edges[random.nextInt(edges.length)]);
    }
    return word.toString();
  }

  private static void write(CanonicalWriter json, Object content) {
    if (content instanceof Map<?, ?> members) {
      json.object();
      members.forEach((name, value) -> write(json.name((String) name), value));
      json.end();
    } else if (content instanceof List<?> items) {
      json.array(items, CanonicalWriterTest::write);
    } else if (content instanceof Double number) {
      json.number(number);
    } else if (content instanceof Boolean flag) {
      json.flag(flag);
    } else {
      json.text((String) content);
    }
  }

  private static String text(Consumer<CanonicalWriter> content) {
    return new String(CanonicalWriter.bytes(content), StandardCharsets.UTF_8);
  }
}

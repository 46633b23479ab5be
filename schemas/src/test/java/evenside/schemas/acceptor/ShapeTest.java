package evenside.schemas.acceptor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.random.RandomGenerator;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Shapes against the platform's own regular expressions: every pattern of the schemas, and invented
 * ones that are harder.
 */
class ShapeTest {

  private static final List<String> CHOICES =
      List.of(
          "^[a-c]*(b|cd)[0-9]{2,3}$",
          "^(a|ab)(c|bcd)(d*)$",
          "^(a?){3}a{3}$",
          "^x{0,2}y+$",
          "^[-+.]?[a-]$",
          "^(|a)b{2,}$",
          "^$",
          "^\\.\\^\\$\\[[\\]\\\\]$");

  static Set<String> patterns() throws IOException {
    Set<String> patterns = new TreeSet<>(CHOICES);
    try (Stream<Path> files = Files.list(Path.of("v1"))) {
      for (Path file : files.toList()) {
        collect(JsonMapper.shared().readTree(Files.readAllBytes(file)), patterns);
      }
    }
    assertThat(patterns).hasSizeGreaterThan(CHOICES.size() + 10);
    return patterns;
  }

  private static void collect(JsonNode schema, Set<String> patterns) {
    if (schema.path("pattern").isString()) {
      patterns.add(schema.path("pattern").asString());
    }
    schema.forEach(child -> collect(child, patterns));
  }

  @ParameterizedTest
  @MethodSource("patterns")
  void shape_takes_what_the_expression_takes(String pattern) {
    Pattern expression = Pattern.compile(pattern.substring(1, pattern.length() - 1));
    Shape shape = Shape.of(pattern);
    RandomGenerator random = new SplittableRandom(17);
    int taken = 0;
    for (int i = 0; i < 2_000; i++) {
      String text = grown(shape, random);
      boolean matches = expression.matcher(text).matches();
      assertThat(shape.accepts(text)).as(pattern + " on " + text).isEqualTo(matches);
      taken += matches ? 1 : 0;
    }
    assertThat(taken).as(pattern).isPositive();
  }

  /** A text that walks through the table by chance, now and then with a wrong step. */
  private static String grown(Shape shape, RandomGenerator random) {
    StringBuilder text = new StringBuilder();
    int state = 0;
    int length = random.nextInt(80);
    while (text.length() < length) {
      List<Integer> groups = new ArrayList<>();
      for (int group = 0; group < shape.groups(); group++) {
        if (shape.next()[state * shape.groups() + group] >= 0) {
          groups.add(group);
        }
      }
      if (groups.isEmpty() || (shape.accepting()[state] && random.nextInt(4) == 0)) {
        break;
      }
      int group = groups.get(random.nextInt(groups.size()));
      text.append(memberOf(group, shape, random));
      state = shape.next()[state * shape.groups() + group];
    }
    if (random.nextInt(3) == 0) {
      char wrong = (char) (random.nextInt(10) == 0 ? random.nextInt(0x300) : random.nextInt(128));
      text.insert(random.nextInt(text.length() + 1), wrong);
    }
    return text.toString();
  }

  private static char memberOf(int group, Shape shape, RandomGenerator random) {
    char c;
    do {
      c = (char) random.nextInt(128);
    } while (shape.group()[c] != group);
    return c;
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "a",
        "^a",
        "a$",
        "^a|b$",
        "^a$b$",
        "^(?:a)$",
        "^[^a]$",
        "^\\d$",
        "^[a&&b]$",
        "^[[a]]$",
        "^a*?$",
        "^a{2}{3}$",
        "^(a$",
        "^a)$",
        "^.$",
        "^[a-$",
        "^a\\$",
        "^\u00e9$",
        "^((a{99}){9}){9}$"
      })
  void expression_beyond_the_plain_ones_is_not_guessed(String pattern) {
    assertThatThrownBy(() -> Shape.of(pattern)).isInstanceOf(Unknown.class);
  }

  @Test
  void newline_at_the_end_is_a_character_like_any_other() {
    assertThat(Shape.of("^[0-9]+$").accepts("1\n")).isFalse();
    assertThat(Shape.of("^[0-9]+$").accepts("\u0661")).isFalse();
  }
}

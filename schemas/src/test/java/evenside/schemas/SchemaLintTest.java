package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.SchemaParts.Part;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiPredicate;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * The rules every published schema keeps, so that any validator and any reader can work with it.
 */
class SchemaLintTest {

  /** What is used; a keyword not listed is either unknown to some validators or a known trap. */
  private static final Set<String> KEYWORDS =
      Set.of(
          "$schema",
          "$id",
          "$ref",
          "$defs",
          "$comment",
          "title",
          "description",
          "examples",
          "deprecated",
          "type",
          "enum",
          "const",
          "properties",
          "required",
          "additionalProperties",
          "propertyNames",
          "minProperties",
          "maxProperties",
          "items",
          "contains",
          "minItems",
          "maxItems",
          "minimum",
          "exclusiveMinimum",
          "maximum",
          "minLength",
          "maxLength",
          "pattern",
          "format",
          "allOf",
          "if",
          "then",
          "else");

  /** Anchored, ASCII, no look-around, no back reference, no repeated group that itself repeats. */
  private static final Pattern ANCHORED = Pattern.compile("\\^[ -~]*\\$");

  private static final Pattern DANGEROUS =
      Pattern.compile("\\(\\?|\\\\[1-9dDwWsSbBpPk]|[+*}]\\)[+*{]|[+*}][+*]");

  private static final Map<String, JsonNode> SCHEMAS = Publish.schemas(Corpus.FOLDER);
  private static final SchemaParts PARTS = new SchemaParts(SCHEMAS);

  @Test
  void only_plain_keywords_are_used() {
    Set<String> used = new TreeSet<>();
    all().forEach(part -> used.addAll(PARTS.node(part).propertyNames()));
    assertThat(KEYWORDS).containsAll(used);
  }

  @Test
  void every_object_states_whether_it_is_open() {
    assertKept(
        all(),
        schema -> isOfType(schema, "object"),
        (part, schema) -> part.chooses() || schema.path("additionalProperties").isBoolean());
  }

  @Test
  void objects_a_sender_writes_are_closed_or_closed_by_their_branch() {
    List<String> open =
        sent().stream()
            .filter(part -> PARTS.node(part).path("additionalProperties").asBoolean(false))
            .map(part -> part.pointer().toString())
            .distinct()
            .toList();
    assertThat(open)
        .containsExactlyInAnyOrder("/$defs/extensions", "/$defs/criterion", "/$defs/informative");
  }

  @Test
  void every_text_has_a_longest_length() {
    assertKept(
        all(), schema -> isOfType(schema, "string"), (part, schema) -> schema.has("maxLength"));
  }

  @Test
  void every_list_a_sender_writes_has_a_most() {
    assertKept(
        sent(), schema -> isOfType(schema, "array"), (part, schema) -> schema.has("maxItems"));
  }

  @Test
  void every_number_a_sender_writes_has_both_bounds() {
    assertKept(
        sent(),
        schema -> isOfType(schema, "number") || isOfType(schema, "integer"),
        (part, schema) -> schema.has("minimum") && schema.has("maximum"));
  }

  @Test
  void every_member_has_a_title_and_a_description() {
    assertKept(
        members(),
        schema -> true,
        (part, schema) -> isDescribed(schema) || isDescribed(PARTS.node(PARTS.referred(part))));
  }

  @Test
  void every_number_says_its_unit() {
    Pattern unit =
        Pattern.compile(
            "\\bin [a-zA-Z%{]|[Uu]nit|[Cc]ount|[Dd]ays|months|[Yy]ear|0 to 10|0 \\(none\\)|status|scale|1 for"
                + "|SEM\\.|meeting side|[Ss]core of the");
    assertKept(
        members(),
        schema -> isOfType(schema, "number") || isOfType(schema, "integer"),
        (part, schema) ->
            hasUnitBeside(part) || unit.matcher(schema.path("description").asString("")).find());
  }

  @Test
  void every_pattern_is_plain_and_linear() {
    assertKept(
        all(),
        schema -> schema.has("pattern"),
        (part, schema) -> {
          String pattern = schema.path("pattern").asString();
          return ANCHORED.matcher(pattern).matches() && !DANGEROUS.matcher(pattern).find();
        });
  }

  @Test
  void every_name_is_ascii_and_unlike_its_neighbours() {
    for (Part part : all()) {
      Set<String> folded = new TreeSet<>();
      for (String name : PARTS.node(part).path("properties").propertyNames()) {
        assertThat(name).as(part.uri()).matches("[a-z][a-zA-Z0-9]*");
        assertThat(folded.add(name.toLowerCase(java.util.Locale.ROOT))).as(name).isTrue();
      }
    }
  }

  @Test
  void null_is_never_a_type() {
    assertKept(
        all(),
        schema -> schema.has("type"),
        (part, schema) -> schema.path("type").isString() && !isOfType(schema, "null"));
  }

  /**
   * Every measure a battery can carry is in the catalogue, under the family it is sent in. Those of
   * questionnaires are listed by the instruments, not by the schema.
   */
  @Test
  void measures_of_the_battery_are_those_of_the_catalogue() {
    Map<String, Set<String>> sent = new LinkedHashMap<>();
    String battery = "https://evenside.example/schemas/1.0/battery.schema.json";
    for (Map.Entry<String, JsonNode> family : SCHEMAS.get(battery).path("$defs").properties()) {
      for (JsonNode code : family.getValue().at("/properties/measure/enum")) {
        sent.computeIfAbsent(code.asString(), any -> new TreeSet<>()).add(family.getKey());
      }
    }
    for (JsonNode instrument : Contract.published().instruments()) {
      for (JsonNode score : instrument.path("scores")) {
        sent.computeIfAbsent(score.path("measure").asString(), any -> new TreeSet<>())
            .add("questionnaire");
      }
    }
    JsonNode measures = Contract.published().catalogue("measures").path("measures");
    Map<String, String> listed = new LinkedHashMap<>();
    measures.forEach(one -> listed.put(one.path("code").asString(), one.path("family").asString()));
    listed.values().removeIf("derived"::equals);
    assertThat(listed.keySet()).containsExactlyInAnyOrderElementsOf(sent.keySet());
    listed.forEach((code, family) -> assertThat(sent.get(code)).as(code).contains(family));
  }

  private static void assertKept(
      Set<Part> parts, Predicate<JsonNode> concerns, BiPredicate<Part, JsonNode> kept) {
    List<String> broken = new ArrayList<>();
    int concerned = 0;
    for (Part part : parts) {
      JsonNode schema = PARTS.node(part);
      if (concerns.test(schema)) {
        concerned++;
        if (!kept.test(part, schema)) {
          broken.add(part.uri());
        }
      }
    }
    assertThat(broken).isEmpty();
    assertThat(concerned).isPositive();
  }

  private static boolean isOfType(JsonNode schema, String type) {
    return schema.path("type").asString("").equals(type);
  }

  private static boolean hasUnitBeside(Part part) {
    Part object = new Part(part.id(), part.pointer().head().head());
    return PARTS.node(object).path("properties").has("unit");
  }

  private static boolean isDescribed(JsonNode schema) {
    return schema.has("title") && schema.has("description");
  }

  private static Set<Part> all() {
    Set<Part> parts = new LinkedHashSet<>();
    for (Map.Entry<String, JsonNode> schema : SCHEMAS.entrySet()) {
      Part root = Part.root(schema.getKey());
      parts.addAll(PARTS.reachable(root));
      for (String name : schema.getValue().path("$defs").propertyNames()) {
        parts.addAll(PARTS.reachable(root.child("$defs", name)));
      }
    }
    return parts;
  }

  private static Set<Part> sent() {
    Set<Part> parts = new LinkedHashSet<>();
    for (String kind : Corpus.INPUT_KINDS) {
      parts.addAll(
          PARTS.reachable(
              Part.root("https://evenside.example/schemas/1.0/" + kind + ".schema.json")));
    }
    return parts;
  }

  private static Set<Part> members() {
    Set<Part> members = new LinkedHashSet<>();
    for (Part part : all()) {
      if (part.pointer().toString().matches(".*/properties/[^/]+") && !part.chooses()) {
        members.add(part);
      }
    }
    return members;
  }
}

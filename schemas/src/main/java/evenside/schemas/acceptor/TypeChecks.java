package evenside.schemas.acceptor;

import evenside.schemas.acceptor.Members.Member;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.BooleanNode;

/** The checks of the keywords of one schema object that look at the value itself. */
final class TypeChecks {

  /** Compiles what is inside this schema. */
  interface Subschemas {
    Check compile(JsonNode schema);

    Shape shape(String pattern);
  }

  private static final Map<String, Set<String>> KEYWORDS =
      Map.of(
          "object",
          Set.of(
              "properties",
              "required",
              "additionalProperties",
              "propertyNames",
              "minProperties",
              "maxProperties"),
          "array",
          Set.of("items", "contains", "minItems", "maxItems"),
          "string",
          Set.of("minLength", "maxLength", "pattern", "format"),
          "number",
          Set.of("minimum", "exclusiveMinimum", "maximum", "exclusiveMaximum"),
          "integer",
          Set.of("minimum", "exclusiveMinimum", "maximum", "exclusiveMaximum"),
          "boolean",
          Set.of(),
          "", // no type: only what is said of objects
          Set.of("properties", "required"));

  /** As many members can be asked for as a long has bits. */
  private static final int MOST_REQUIRED = Long.SIZE;

  private final JsonNode schema;
  private final Subschemas inside;
  private final List<Check> checks = new ArrayList<>();

  TypeChecks(JsonNode schema, Subschemas inside) {
    this.schema = schema;
    this.inside = inside;
  }

  /** The keywords beside {@code type} that bear on values of a type; {@code ""} for no type. */
  static Set<String> keywords(String type) {
    Set<String> keywords = KEYWORDS.get(type);
    if (keywords == null) {
      throw new Unknown("the type " + type);
    }
    return keywords;
  }

  List<Check> checks() {
    String type = schema.path("type").asString("");
    boolean chosen = choices();
    switch (type) {
      case "object" -> checks.add(object(false));
      case "array" -> checks.add(list());
      case "string" -> {
        if (!chosen || saysMoreThanChoices()) {
          checks.add(new TextRule.OfValue(text(schema)));
        }
      }
      case "number", "integer" -> checks.add(number(type.equals("integer")));
      case "boolean" -> checks.add(value -> value instanceof BooleanNode);
      default -> {
        if (schema.has("properties") || schema.has("required")) {
          checks.add(object(true));
        }
      }
    }
    return checks;
  }

  private boolean saysMoreThanChoices() {
    return keywords("string").stream().anyMatch(schema::has);
  }

  /** {@code const} and {@code enum}; true if only strings can pass. */
  private boolean choices() {
    JsonNode only = schema.path("const");
    if (only.isString()) {
      String text = only.stringValue();
      checks.add(new TextRule.OfValue(text::equals));
    } else if (only.isBoolean()) {
      checks.add(only::equals);
    } else if (!only.isMissingNode()) {
      throw new Unknown("a constant " + only.getNodeType());
    }
    if (schema.has("enum")) {
      Set<String> texts = new HashSet<>();
      for (JsonNode one : schema.path("enum")) {
        if (!one.isString()) {
          throw new Unknown("a choice " + one.getNodeType());
        }
        texts.add(one.stringValue());
      }
      checks.add(new TextRule.OfValue(texts::contains));
    }
    return only.isString() || schema.has("enum");
  }

  private Check object(boolean otherTypes) {
    List<Member> members = members();
    int fewest = count("minProperties", 0);
    int most = count("maxProperties", Integer.MAX_VALUE);
    JsonNode others = schema.path("additionalProperties");
    boolean open = others.isMissingNode() || (others.isBoolean() && others.booleanValue());
    if (open && !schema.has("propertyNames")) {
      return new OpenObject(members, fewest, most, otherTypes);
    }
    long required = 0;
    for (Member member : members) {
      required |= member.required();
    }
    return new ClosedObject(
        new Members(members),
        required,
        open ? Check.ANYTHING : inside.compile(others),
        schema.has("propertyNames") ? names(schema.path("propertyNames")) : TextRule.ANY,
        fewest,
        most,
        otherTypes);
  }

  /** Those with a schema of their own and those that must be there. */
  private List<Member> members() {
    Map<String, Long> required = new LinkedHashMap<>();
    for (JsonNode name : schema.path("required")) {
      required.put(name.asString(), 1L << required.size());
    }
    if (required.size() > MOST_REQUIRED) {
      throw new Unknown("more than " + MOST_REQUIRED + " required members");
    }
    List<Member> members = new ArrayList<>();
    for (Map.Entry<String, JsonNode> property : schema.path("properties").properties()) {
      long bit = required.getOrDefault(property.getKey(), 0L);
      required.remove(property.getKey());
      members.add(new Member(property.getKey(), inside.compile(property.getValue()), bit));
    }
    if (!required.isEmpty() && schema.has("additionalProperties")) {
      throw new Unknown("a required member without a schema");
    }
    required.forEach((name, bit) -> members.add(new Member(name, Check.ANYTHING, bit)));
    return members;
  }

  private TextRule names(JsonNode schema) {
    Set<String> known = keywords("string");
    for (String keyword : schema.propertyNames()) {
      if (!known.contains(keyword) && !keyword.equals("title") && !keyword.equals("description")) {
        throw new Unknown("the keyword " + keyword + " for names");
      }
    }
    return text(schema);
  }

  private Check list() {
    Check items = schema.has("items") ? inside.compile(schema.path("items")) : Check.ANYTHING;
    Check one = schema.has("contains") ? inside.compile(schema.path("contains")) : null;
    int most = count("maxItems", Integer.MAX_VALUE);
    return new ListCheck(items, one, count("minItems", 0), most);
  }

  private TextRule text(JsonNode schema) {
    List<TextRule> rules = new ArrayList<>();
    if (schema.has("minLength") || schema.has("maxLength")) {
      int fewest = count(schema, "minLength", 0);
      rules.add(new TextRule.Length(fewest, count(schema, "maxLength", Integer.MAX_VALUE)));
    }
    if (schema.has("pattern")) {
      rules.add(inside.shape(schema.path("pattern").asString()));
    }
    switch (schema.path("format").asString("")) {
      case "" -> {}
      case "date" -> rules.add(Dates::isDate);
      case "date-time" -> rules.add(Dates::isDateTime);
      default -> throw new Unknown("the format " + schema.path("format"));
    }
    return TextRule.all(rules.toArray(TextRule[]::new));
  }

  private Check number(boolean whole) {
    BigDecimal lowest = bound("minimum", "exclusiveMinimum");
    BigDecimal highest = bound("maximum", "exclusiveMaximum");
    return new NumberCheck(lowest, schema.has("minimum"), highest, schema.has("maximum"), whole);
  }

  private @Nullable BigDecimal bound(String inclusive, String exclusive) {
    if (schema.has(inclusive) && schema.has(exclusive)) {
      throw new Unknown(inclusive + " beside " + exclusive);
    }
    JsonNode bound = schema.path(schema.has(inclusive) ? inclusive : exclusive);
    return bound.isMissingNode() ? null : bound.decimalValue();
  }

  private int count(String keyword, int otherwise) {
    return count(schema, keyword, otherwise);
  }

  private static int count(JsonNode schema, String keyword, int otherwise) {
    return schema.has(keyword) ? schema.path(keyword).intValue() : otherwise;
  }
}

package evenside.schemas;

import evenside.schemas.SchemaParts.Assertion;
import java.math.BigDecimal;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Breaks one assertion of a schema in a valid document, and as little else as can be. */
final class Violation {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private Violation() {}

  /**
   * @param rule value of the keyword
   * @param place where in the document the subschema is at work
   * @param around the subschema
   */
  static JsonNode of(Assertion assertion, JsonNode around, JsonNode document, JsonPointer place) {
    JsonNode copy = document.deepCopy();
    JsonNode broken = broken(assertion, around, copy.at(place));
    if (place.equals(JsonPointer.empty())) {
      return broken;
    }
    JsonNode parent = copy.at(place.head());
    if (parent instanceof ArrayNode list) {
      list.set(place.last().getMatchingIndex(), broken);
    } else {
      ((ObjectNode) parent).set(place.last().getMatchingProperty(), broken);
    }
    return copy;
  }

  private static JsonNode broken(Assertion assertion, JsonNode around, JsonNode value) {
    JsonNode rule = around.path(assertion.name());
    if (assertion.part().namesKeys()) {
      return withMember(value, badKey(assertion.name(), rule));
    }
    return switch (assertion.name()) {
      case "type" -> otherType(rule.asString());
      case "enum", "const" -> NODES.stringNode("no-such-value");
      case "minimum" -> NODES.numberNode(rule.decimalValue().subtract(BigDecimal.ONE));
      case "maximum" -> NODES.numberNode(rule.decimalValue().add(BigDecimal.ONE));
      case "minLength" -> NODES.stringNode(value.asString().substring(0, rule.intValue() - 1));
      case "maxLength" -> NODES.stringNode("1".repeat(rule.intValue() + 1));
      case "pattern" -> NODES.stringNode("?".repeat(around.path("minLength").asInt(1)));
      case "format" -> NODES.stringNode(wrongDay(rule.asString()));
      case "minItems" -> filled(value, rule.intValue() - 1);
      case "maxItems" -> filled(value, rule.intValue() + 1);
      case "contains" -> NODES.arrayNode().add(NODES.objectNode().put("invalidReason", "pain"));
      case "minProperties" -> NODES.objectNode();
      case "maxProperties" -> crowded(value, rule.intValue() + 1);
      case "required" -> ((ObjectNode) value).without(assertion.member());
      case "additionalProperties" -> withMember(value, "surplusMember");
      default -> throw new IllegalStateException("no way to break " + assertion);
    };
  }

  private static String badKey(String keyword, JsonNode rule) {
    return keyword.equals("maxLength") ? "org." + "a".repeat(rule.intValue()) : "no key";
  }

  private static JsonNode otherType(String type) {
    return switch (type) {
      case "string" -> NODES.numberNode(5);
      case "integer" -> NODES.numberNode(new BigDecimal("1.5"));
      case "array" -> NODES.objectNode();
      default -> NODES.stringNode("text");
    };
  }

  private static String wrongDay(String format) {
    return switch (format) {
      case "date" -> "2026-02-30";
      case "date-time" -> "2026-02-30T10:00:00Z";
      default -> throw new IllegalStateException("no wrong " + format);
    };
  }

  private static ArrayNode filled(JsonNode list, int size) {
    ArrayNode filled = NODES.arrayNode();
    for (int i = 0; i < size; i++) {
      filled.add(list.get(i % list.size()));
    }
    return filled;
  }

  private static ObjectNode crowded(JsonNode object, int size) {
    ObjectNode crowded = ((ObjectNode) object).objectNode();
    for (int i = 0; i < size; i++) {
      crowded.put("org.example.key" + i, i);
    }
    return crowded;
  }

  private static ObjectNode withMember(JsonNode object, String name) {
    return ((ObjectNode) object).put(name, true);
  }
}

package evenside.api.openapi;

import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A published schema made fit for client generators. It asks nothing else of a document; what goes
 * is what generators are known to trip over:
 *
 * <ul>
 *   <li>the title of an inner object or list, which they make the name of a class: {@code Set} and
 *       {@code Date} are taken, and of many {@code Trial}s each new one would rename the others.
 *       Without it the name is the place, which stays;
 *   <li>the pattern beside {@code format: date} and {@code date-time}, which the Python client
 *       holds against a parsed date, and fails;
 *   <li>a {@code const} without its type, which they take for a value of any type.
 * </ul>
 */
final class ForGenerators {
  private static final List<String> SINGLE =
      List.of("items", "contains", "if", "then", "else", "not", "additionalProperties");
  private static final List<String> SEVERAL = List.of("allOf", "anyOf", "oneOf", "prefixItems");
  private static final Set<String> NAMED = Set.of("object", "array");
  private static final Set<String> PARSED = Set.of("date", "date-time");

  private ForGenerators() {}

  /** Changes a component in place. */
  static void adapt(ObjectNode component) {
    adapt(component, true);
  }

  private static void adapt(JsonNode schema, boolean root) {
    if (!(schema instanceof ObjectNode object)) {
      return;
    }
    if (!root && NAMED.contains(object.path("type").asString(""))) {
      object.remove("title");
    }
    if (PARSED.contains(object.path("format").asString(""))) {
      object.remove("pattern");
    }
    if (object.path("const").isString() && !object.has("type")) {
      object.put("type", "string");
    }
    for (Map.Entry<String, JsonNode> property : object.path("properties").properties()) {
      adapt(property.getValue(), false);
    }
    SINGLE.forEach(keyword -> adapt(object.path(keyword), false));
    SEVERAL.forEach(keyword -> object.path(keyword).forEach(part -> adapt(part, false)));
  }
}

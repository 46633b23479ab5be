package evenside.readiness.audit;

import java.util.Iterator;
import java.util.Map;
import java.util.TreeMap;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Where two documents differ, each place with both values. */
final class Differences {
  /** More would not be read by anyone. */
  private static final int MOST = 200;

  private final String before;
  private final String after;
  private final ArrayNode found = JsonNodeFactory.instance.arrayNode();

  private Differences(String before, String after) {
    this.before = before;
    this.after = after;
  }

  /**
   * Compares two documents.
   *
   * @param before what the member with the first value is called
   * @param after what the member with the second value is called
   * @return objects with {@code pointer} and the two values, one left out where there is none
   */
  static ArrayNode of(JsonNode first, JsonNode second, String before, String after) {
    Differences differences = new Differences(before, after);
    differences.compare(JsonPointer.empty(), first, second);
    return differences.found;
  }

  private void compare(JsonPointer at, JsonNode a, JsonNode b) {
    if (found.size() >= MOST || a.equals(b)) {
      return;
    }
    if (a.isObject() && b.isObject()) {
      members(a, b).forEach((name, x) -> compare(at.appendProperty(name), x, b.path(name)));
    } else if (a.isArray() && b.isArray()) {
      for (int i = 0; i < Math.max(a.size(), b.size()); i++) {
        compare(at.appendIndex(i), a.path(i), b.path(i));
      }
    } else if (!(a.isNumber() && b.isNumber() && a.doubleValue() == b.doubleValue())) {
      ObjectNode difference = found.addObject().put("pointer", at.toString());
      put(difference, before, a);
      put(difference, after, b);
    }
  }

  private static Map<String, JsonNode> members(JsonNode a, JsonNode b) {
    Map<String, JsonNode> members = new TreeMap<>();
    for (Iterator<String> names = b.propertyNames().iterator(); names.hasNext(); ) {
      members.put(names.next(), JsonNodeFactory.instance.missingNode());
    }
    a.properties().forEach(member -> members.put(member.getKey(), member.getValue()));
    return members;
  }

  private static void put(ObjectNode difference, String name, JsonNode value) {
    if (!value.isMissingNode()) {
      difference.set(name, value);
    }
  }
}

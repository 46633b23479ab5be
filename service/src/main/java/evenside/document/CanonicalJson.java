package evenside.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.IntNode;
import tools.jackson.databind.node.LongNode;
import tools.jackson.databind.node.NumericNode;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.databind.node.StringNode;

/**
 * Trees in the one form that RFC 8785 allows, through {@link CanonicalWriter}: what came in, whose
 * members may stand in any order.
 *
 * <p>Numbers are read as doubles, so 1.10 and 1.1 are the same text; a number that no double holds
 * (beyond ±1.8e308) is refused.
 *
 * <p>Source: RFC 8785; checked against its published documents and appendix B.
 */
public final class CanonicalJson {
  private CanonicalJson() {}

  /**
   * The canonical bytes of a tree.
   *
   * @throws IllegalArgumentException if the tree holds what canonical JSON cannot: a number beyond
   *     a double, a lone surrogate, a missing node
   */
  public static byte[] bytes(JsonNode tree) {
    return CanonicalWriter.bytes(json -> write(json, tree));
  }

  /** By class, the frequent ones first: asking each node what it is costs more than writing it. */
  static void write(CanonicalWriter json, JsonNode node) {
    if (node instanceof StringNode text) {
      json.text(text.stringValue());
    } else if (node instanceof ObjectNode object) {
      object(json, object);
    } else if (node instanceof ArrayNode array) {
      array(json, array);
    } else if (node instanceof NumericNode number) {
      json.number(number(number));
    } else {
      rare(json, node);
    }
  }

  private static void rare(CanonicalWriter json, JsonNode node) {
    switch (node.getNodeType()) {
      case BOOLEAN -> json.flag(node.booleanValue());
      case NULL -> json.nothing();
      default -> throw new IllegalArgumentException(node.getNodeType() + " is no JSON value");
    }
  }

  private static double number(NumericNode node) {
    if (node instanceof IntNode whole) {
      return whole.intValue();
    }
    if (node instanceof LongNode whole) {
      return whole.longValue();
    }
    return node.isDouble() ? node.doubleValue() : node.numberValue().doubleValue();
  }

  private static void object(CanonicalWriter json, ObjectNode node) {
    Set<Map.Entry<String, JsonNode>> members = node.properties();
    json.object();
    for (Map.Entry<String, JsonNode> member : isInOrder(members) ? members : inOrder(members)) {
      write(json.anyName(member.getKey()), member.getValue());
    }
    json.end();
  }

  /** The order of the names' UTF-16 units, which is that of Java's strings. */
  private static boolean isInOrder(Set<Map.Entry<String, JsonNode>> members) {
    String before = "";
    for (Map.Entry<String, JsonNode> member : members) {
      String name = member.getKey();
      if (before.compareTo(name) > 0) {
        return false;
      }
      before = name;
    }
    return true;
  }

  private static List<Map.Entry<String, JsonNode>> inOrder(
      Set<Map.Entry<String, JsonNode>> members) {
    List<Map.Entry<String, JsonNode>> sorted = new ArrayList<>(members);
    sorted.sort(Map.Entry.comparingByKey());
    return sorted;
  }

  private static void array(CanonicalWriter json, ArrayNode node) {
    json.array();
    for (JsonNode item : node) {
      write(json, item);
    }
    json.end();
  }
}

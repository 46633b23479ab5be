package evenside.document;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;

/**
 * Writes JSON in the one form that RFC 8785 allows: members by name in UTF-16 order, no white
 * space, shortest escapes, numbers as ECMAScript prints them.
 *
 * <p>Numbers are read as doubles, so 1.10 and 1.1 are the same text; a number that no double holds
 * (beyond ±1.8e308) is refused.
 *
 * <p>Source: RFC 8785; checked against its published documents and appendix B.
 */
public final class CanonicalJson {
  private final StringBuilder out = new StringBuilder(1024);

  private CanonicalJson() {}

  /**
   * The canonical bytes of a tree.
   *
   * @throws IllegalArgumentException if the tree holds what canonical JSON cannot: a number beyond
   *     a double, a lone surrogate, a missing node
   */
  public static byte[] bytes(JsonNode tree) {
    CanonicalJson writer = new CanonicalJson();
    writer.value(tree);
    return writer.out.toString().getBytes(StandardCharsets.UTF_8);
  }

  private void value(JsonNode node) {
    switch (node.getNodeType()) {
      case OBJECT -> object(node);
      case ARRAY -> array(node);
      case STRING -> text(node.stringValue());
      case NUMBER -> out.append(CanonicalNumber.text(node.numberValue().doubleValue()));
      case BOOLEAN -> out.append(node.booleanValue());
      case NULL -> out.append("null");
      case BINARY, MISSING, POJO ->
          throw new IllegalArgumentException(node.getNodeType() + " is no JSON value");
    }
  }

  private void object(JsonNode node) {
    Map<String, JsonNode> members = new TreeMap<>();
    node.properties().forEach(member -> members.put(member.getKey(), member.getValue()));
    char separator = '{';
    for (Map.Entry<String, JsonNode> member : members.entrySet()) {
      out.append(separator);
      text(member.getKey());
      out.append(':');
      value(member.getValue());
      separator = ',';
    }
    out.append(members.isEmpty() ? "{}" : "}");
  }

  private void array(JsonNode node) {
    char separator = '[';
    for (JsonNode item : node) {
      out.append(separator);
      value(item);
      separator = ',';
    }
    out.append(node.isEmpty() ? "[]" : "]");
  }

  private void text(String text) {
    out.append('"');
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (Character.isSurrogate(c)) {
        i = pair(text, i);
      } else {
        character(c);
      }
    }
    out.append('"');
  }

  private int pair(String text, int at) {
    boolean whole =
        at + 1 < text.length() && Character.isSurrogatePair(text.charAt(at), text.charAt(at + 1));
    if (!whole) {
      throw new IllegalArgumentException("lone surrogate at " + at);
    }
    out.append(text, at, at + 2);
    return at + 1;
  }

  private void character(char c) {
    switch (c) {
      case '"' -> out.append("\\\"");
      case '\\' -> out.append("\\\\");
      case '\b' -> out.append("\\b");
      case '\t' -> out.append("\\t");
      case '\n' -> out.append("\\n");
      case '\f' -> out.append("\\f");
      case '\r' -> out.append("\\r");
      default -> {
        if (c < ' ') {
          out.append(String.format(java.util.Locale.ROOT, "\\u%04x", (int) c));
        } else {
          out.append(c);
        }
      }
    }
  }
}

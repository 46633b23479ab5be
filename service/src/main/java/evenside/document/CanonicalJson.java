package evenside.document;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
  private static final int FIRST_SIZE = 1024;

  private byte[] out = new byte[FIRST_SIZE];
  private int length;

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
    return Arrays.copyOf(writer.out, writer.length);
  }

  private void value(JsonNode node) {
    switch (node.getNodeType()) {
      case OBJECT -> object(node);
      case ARRAY -> array(node);
      case STRING -> text(node.stringValue());
      case NUMBER -> ascii(number(node));
      case BOOLEAN -> ascii(node.booleanValue() ? "true" : "false");
      case NULL -> ascii("null");
      case BINARY, MISSING, POJO ->
          throw new IllegalArgumentException(node.getNodeType() + " is no JSON value");
    }
  }

  private static String number(JsonNode node) {
    return node.isInt()
        ? Integer.toString(node.intValue())
        : CanonicalNumber.text(node.numberValue().doubleValue());
  }

  private void object(JsonNode node) {
    char separator = '{';
    for (Map.Entry<String, JsonNode> member : byName(node)) {
      single(separator);
      text(member.getKey());
      single(':');
      value(member.getValue());
      separator = ',';
    }
    ascii(separator == '{' ? "{}" : "}");
  }

  /** The members in the order of their names' UTF-16 units, which is that of Java's strings. */
  private static List<Map.Entry<String, JsonNode>> byName(JsonNode node) {
    List<Map.Entry<String, JsonNode>> members = new ArrayList<>(node.properties());
    for (int i = 1; i < members.size(); i++) {
      if (members.get(i - 1).getKey().compareTo(members.get(i).getKey()) > 0) {
        members.sort(Map.Entry.comparingByKey());
        break; // often they are in order already
      }
    }
    return members;
  }

  private void array(JsonNode node) {
    char separator = '[';
    for (JsonNode item : node) {
      single(separator);
      value(item);
      separator = ',';
    }
    ascii(separator == '[' ? "[]" : "]");
  }

  private void text(String text) {
    single('"');
    int units = text.length();
    makeRoomFor(units);
    for (int i = 0; i < units; i++) {
      char c = text.charAt(i);
      if (c >= ' ' && c < 0x80 && c != '"' && c != '\\') {
        single(c);
      } else if (c < 0x80) {
        escape(c);
      } else if (Character.isSurrogate(c)) {
        pair(text, i);
        i++;
      } else {
        wide(c);
      }
    }
    single('"');
  }

  /** UTF-8 of a character beyond ASCII and within the first plane. */
  private void wide(char c) {
    if (c < 0x800) {
      single(0xC0 | (c >> 6));
    } else {
      single(0xE0 | (c >> 12));
      single(0x80 | ((c >> 6) & 0x3F));
    }
    single(0x80 | (c & 0x3F));
  }

  private void pair(String text, int at) {
    boolean whole =
        at + 1 < text.length() && Character.isSurrogatePair(text.charAt(at), text.charAt(at + 1));
    if (!whole) {
      throw new IllegalArgumentException("lone surrogate at " + at);
    }
    int c = text.codePointAt(at);
    single(0xF0 | (c >> 18));
    single(0x80 | ((c >> 12) & 0x3F));
    single(0x80 | ((c >> 6) & 0x3F));
    single(0x80 | (c & 0x3F));
  }

  private void escape(char c) {
    switch (c) {
      case '"' -> ascii("\\\"");
      case '\\' -> ascii("\\\\");
      case '\b' -> ascii("\\b");
      case '\t' -> ascii("\\t");
      case '\n' -> ascii("\\n");
      case '\f' -> ascii("\\f");
      case '\r' -> ascii("\\r");
      default -> ascii(String.format(Locale.ROOT, "\\u%04x", (int) c));
    }
  }

  private void ascii(String text) {
    makeRoomFor(text.length());
    for (int i = 0; i < text.length(); i++) {
      out[length++] = (byte) text.charAt(i);
    }
  }

  private void single(int unit) {
    makeRoomFor(1);
    out[length++] = (byte) unit;
  }

  private void makeRoomFor(int more) {
    if (more > out.length - length) {
      out = Arrays.copyOf(out, Math.max(2 * out.length, length + more));
    }
  }
}

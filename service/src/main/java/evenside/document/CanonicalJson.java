package evenside.document;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.IntNode;
import tools.jackson.databind.node.NumericNode;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.databind.node.StringNode;

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
  private static final int FIRST_SIZE = 4096;

  /** A larger buffer does not stay with its thread. */
  private static final int MOST_KEPT = 1 << 17;

  /** Growing a buffer to the size of an answer costs as much as a third of writing it. */
  private static final ThreadLocal<CanonicalJson> WRITERS =
      ThreadLocal.withInitial(CanonicalJson::new);

  private static final boolean[] PLAIN = plain();

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
    CanonicalJson writer = WRITERS.get();
    writer.length = 0;
    writer.value(tree);
    byte[] bytes = Arrays.copyOf(writer.out, writer.length);
    if (writer.out.length > MOST_KEPT) {
      WRITERS.remove();
    }
    return bytes;
  }

  /** By class, the frequent ones first: asking each node what it is costs more than writing it. */
  private void value(JsonNode node) {
    if (node instanceof StringNode text) {
      text(text.stringValue());
    } else if (node instanceof ObjectNode object) {
      object(object);
    } else if (node instanceof ArrayNode array) {
      array(array);
    } else if (node instanceof NumericNode number) {
      ascii(number(number));
    } else {
      rare(node);
    }
  }

  private void rare(JsonNode node) {
    switch (node.getNodeType()) {
      case BOOLEAN -> ascii(node.booleanValue() ? "true" : "false");
      case NULL -> ascii("null");
      default -> throw new IllegalArgumentException(node.getNodeType() + " is no JSON value");
    }
  }

  private static String number(NumericNode node) {
    if (node instanceof IntNode whole) {
      return Integer.toString(whole.intValue());
    }
    double number = node.isDouble() ? node.doubleValue() : node.numberValue().doubleValue();
    return CanonicalNumber.text(number);
  }

  private void object(ObjectNode node) {
    Set<Map.Entry<String, JsonNode>> members = node.properties();
    if (isInOrder(members)) {
      char separator = '{';
      for (Map.Entry<String, JsonNode> member : members) {
        member(separator, member);
        separator = ',';
      }
      ascii(separator == '{' ? "{}" : "}");
    } else {
      inOrder(members);
    }
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

  private void inOrder(Set<Map.Entry<String, JsonNode>> members) {
    List<Map.Entry<String, JsonNode>> sorted = new ArrayList<>(members);
    sorted.sort(Map.Entry.comparingByKey());
    char separator = '{';
    for (Map.Entry<String, JsonNode> member : sorted) {
      member(separator, member);
      separator = ',';
    }
    single('}');
  }

  private void member(char separator, Map.Entry<String, JsonNode> member) {
    single(separator);
    text(member.getKey());
    single(':');
    value(member.getValue());
  }

  private void array(ArrayNode node) {
    char separator = '[';
    for (JsonNode item : node) {
      single(separator);
      value(item);
      separator = ',';
    }
    ascii(separator == '[' ? "[]" : "]");
  }

  private void text(String text) {
    int units = text.length();
    makeRoomFor(units + 2);
    byte[] to = out;
    int at = length;
    to[at++] = '"';
    for (int i = 0; i < units; i++) {
      char c = text.charAt(i);
      if (!isPlain(c)) {
        length = at;
        rest(text, i);
        single('"');
        return;
      }
      to[at++] = (byte) c;
    }
    to[at++] = '"';
    length = at;
  }

  /** True for a character that is its own byte. */
  private static boolean isPlain(char c) {
    return c < PLAIN.length && PLAIN[c];
  }

  private static boolean[] plain() {
    boolean[] plain = new boolean[0x80];
    Arrays.fill(plain, ' ', plain.length, true);
    plain['"'] = false;
    plain['\\'] = false;
    return plain;
  }

  private void rest(String text, int from) {
    for (int i = from; i < text.length(); i++) {
      char c = text.charAt(i);
      if (isPlain(c)) {
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

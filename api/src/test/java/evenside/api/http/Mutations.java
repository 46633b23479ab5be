package evenside.api.http;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.random.RandomGenerator;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Spoils documents, by chance but the same for the same seed. */
final class Mutations {
  /** Values that something somewhere may not be ready for. */
  private static final List<String> VALUES =
      List.of(
          "null",
          "true",
          "\"\"",
          "[]",
          "{}",
          "0",
          "-0.0",
          "-1",
          "1e20",
          "1e-20",
          "1e21",
          "9007199254740993",
          "0.1234567",
          "123456789012345678",
          "1e400",
          "\"\\u0000\"",
          "\"\\ud800\"",
          "\"\\uD83D\\uDE00\"",
          "\"2026-02-30\"",
          "\"2026-08-19T25:00:00Z\"",
          "\"0000-01-01\"",
          "\"9999-12-31T23:59:59+14:00\"",
          "\"1.0\"",
          "\"../../x\"",
          "\"' or 1=1 --\"",
          "\"${jndi:x}\"",
          "\"<script>\"",
          "\"left\"",
          "\"nm\"",
          "\"00000000-0000-7000-8000-000000000000\"",
          "[[[[[[[[[[]]]]]]]]]]",
          "{\"a\":{\"a\":{}}}");

  private final RandomGenerator random;

  Mutations(RandomGenerator random) {
    this.random = random;
  }

  /** A spoilt document: one to four changes to the tree, and now and then to the bytes. */
  byte[] of(String document) {
    JsonNode tree = JsonMapper.shared().readTree(document);
    List<String> raw = new ArrayList<>();
    for (int i = random.nextInt(5); i > 0; i--) {
      change(tree, raw);
    }
    String text = tree.toString();
    for (int i = 0; i < raw.size(); i++) {
      text = text.replace("\"@@" + i + "@@\"", raw.get(i));
    }
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    return random.nextInt(4) == 0 ? bytes(bytes) : bytes;
  }

  /** Changes one place of the tree. What a tree cannot hold is put in at the end, as text. */
  private void change(JsonNode root, List<String> raw) {
    List<JsonNode> places = new ArrayList<>();
    collect(root, places);
    if (places.isEmpty()) {
      return;
    }
    JsonNode place = places.get(random.nextInt(places.size()));
    if (place instanceof ObjectNode object) {
      change(object, raw);
    } else if (place instanceof ArrayNode array) {
      change(array, raw);
    }
  }

  private void change(ObjectNode object, List<String> raw) {
    List<String> names = List.copyOf(object.propertyNames());
    String name = names.isEmpty() ? "x" : names.get(random.nextInt(names.size()));
    switch (random.nextInt(5)) {
      case 0 -> object.remove(name);
      case 1 -> object.put(name + "x", "more");
      case 2 -> object.set(name, JsonNodeFactory.instance.arrayNode().add(object.path(name)));
      default -> object.put(name, hole(raw));
    }
  }

  private void change(ArrayNode array, List<String> raw) {
    switch (random.nextInt(4)) {
      case 0 -> array.removeAll();
      case 1 -> array.add(hole(raw));
      case 2 -> {
        JsonNode item = array.isEmpty() ? JsonNodeFactory.instance.nullNode() : array.get(0);
        for (int i = random.nextInt(120); i > 0; i--) {
          array.add(item.deepCopy());
        }
      }
      default -> {
        if (!array.isEmpty()) {
          array.set(random.nextInt(array.size()), hole(raw));
        }
      }
    }
  }

  private String hole(List<String> raw) {
    raw.add(VALUES.get(random.nextInt(VALUES.size())));
    return "@@" + (raw.size() - 1) + "@@";
  }

  private static void collect(JsonNode node, List<JsonNode> into) {
    if (node.isContainer()) {
      into.add(node);
      node.forEach(child -> collect(child, into));
    }
  }

  /** Bytes cut, doubled or turned. */
  private byte[] bytes(byte[] bytes) {
    if (bytes.length == 0) {
      return bytes;
    }
    byte[] other = bytes.clone();
    int at = random.nextInt(bytes.length);
    switch (random.nextInt(3)) {
      case 0 -> other = Arrays.copyOf(bytes, at);
      case 1 -> other[at] ^= (byte) (1 << random.nextInt(8));
      default -> other[at] = (byte) random.nextInt(256);
    }
    return other;
  }
}

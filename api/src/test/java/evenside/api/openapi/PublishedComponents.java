package evenside.api.openapi;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * The published schemas as components of an OpenAPI document. Generators do not follow {@code $id}s
 * and a served file cannot point at files beside it, so {@code openapi.yaml} carries copies: {@code
 * battery.schema.json} is {@code Battery}, its {@code $defs/hopDistance} is {@code
 * BatteryHopDistance}, a definition of {@code common.schema.json} goes by its own name. The copies
 * ask what the published schemas ask, said as {@link ForGenerators} says it.
 */
final class PublishedComponents {
  private static final String LOCAL = "#/components/schemas/";

  private PublishedComponents() {}

  /** Every published schema and definition by component name, references rewritten. */
  static Map<String, JsonNode> all() {
    Map<String, JsonNode> components = new TreeMap<>();
    for (Path file : Repository.files("schemas/v1", ".schema.json")) {
      String kind = file.getFileName().toString().replace(".schema.json", "");
      ObjectNode schema = (ObjectNode) Repository.json(file);
      JsonNode definitions = schema.path("$defs");
      schema.remove(Set.of("$schema", "$id", "$defs", "$comment"));
      if (!kind.equals("common")) {
        add(components, name(kind, ""), rewrite(schema, kind));
      }
      definitions
          .properties()
          .forEach(d -> add(components, name(kind, d.getKey()), rewrite(d.getValue(), kind)));
    }
    return components;
  }

  /** Those of {@link #all} that {@code document} needs, directly or through one another. */
  static Map<String, JsonNode> usedBy(JsonNode document) {
    Map<String, JsonNode> all = all();
    Map<String, JsonNode> used = new TreeMap<>();
    Deque<JsonNode> open = new ArrayDeque<>(Set.of(document));
    while (!open.isEmpty()) {
      for (JsonNode reference : open.pop().findValues("$ref")) {
        String name = reference.asString().replace(LOCAL, "");
        JsonNode component = all.get(name);
        if (component != null && used.put(name, component) == null) {
          open.push(component);
        }
      }
    }
    return used;
  }

  private static void add(Map<String, JsonNode> components, String name, JsonNode schema) {
    ForGenerators.adapt((ObjectNode) schema);
    if (components.put(name, schema) != null) {
      throw new IllegalStateException("Two published schemas would be the component " + name);
    }
  }

  private static JsonNode rewrite(JsonNode node, String kind) {
    if (node.isArray()) {
      ArrayNode copy = JsonNodeFactory.instance.arrayNode();
      node.forEach(item -> copy.add(rewrite(item, kind)));
      return copy;
    }
    if (!node.isObject()) {
      return node;
    }
    ObjectNode copy = JsonNodeFactory.instance.objectNode();
    node.properties()
        .forEach(
            member -> {
              boolean reference = member.getKey().equals("$ref") && member.getValue().isString();
              if (reference) {
                copy.put("$ref", LOCAL + target(member.getValue().asString(), kind));
              } else {
                copy.set(member.getKey(), rewrite(member.getValue(), kind));
              }
            });
    return copy;
  }

  private static String target(String reference, String kind) {
    int hash = reference.indexOf('#');
    String file = hash < 0 ? reference : reference.substring(0, hash);
    String definition = hash < 0 ? "" : reference.substring(hash).replace("#/$defs/", "");
    return name(file.isEmpty() ? kind : file.replace(".schema.json", ""), definition);
  }

  private static String name(String kind, String definition) {
    return kind.equals("common") ? pascal(definition) : pascal(kind) + pascal(definition);
  }

  private static String pascal(String text) {
    StringBuilder name = new StringBuilder();
    for (String word : text.split("-", -1)) {
      if (!word.isEmpty()) {
        name.append(Character.toUpperCase(word.charAt(0))).append(word.substring(1));
      }
    }
    return name.toString();
  }
}

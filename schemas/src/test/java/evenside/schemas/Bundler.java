package evenside.schemas;

import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Packs a schema with all it refers to into one compound document: each foreign schema lies whole,
 * with its own {@code $id}, under {@code $defs} (JSON Schema 2020-12 core, section 9.3).
 */
final class Bundler {

  private final Map<String, JsonNode> schemas;

  /**
   * @param schemas every schema by its {@code $id}
   */
  Bundler(Map<String, JsonNode> schemas) {
    this.schemas = schemas;
  }

  ObjectNode bundle(String id) {
    SortedMap<String, JsonNode> foreign = new TreeMap<>();
    collect(id, foreign);
    foreign.remove(id);
    ObjectNode root = (ObjectNode) schemas.get(id).deepCopy();
    ObjectNode definitions = root.withObject("/$defs");
    foreign.forEach((foreignId, schema) -> definitions.set(foreignId, schema.deepCopy()));
    return root;
  }

  private void collect(String id, SortedMap<String, JsonNode> found) {
    if (found.putIfAbsent(id, schemas.get(id)) == null) {
      for (JsonNode reference : schemas.get(id).findValues("$ref")) {
        String target = reference.asString().split("#", 2)[0];
        if (!target.isEmpty()) {
          collect(id.substring(0, id.lastIndexOf('/') + 1) + target, found);
        }
      }
    }
  }
}

package evenside.schemas;

import java.util.HashMap;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/** Follows the references inside a bundle (JSON Schema 2020-12 core, section 9.3). */
final class BundleReader {
  private final Map<String, JsonNode> byId = new HashMap<>();
  private final Spot root;

  /**
   * A subschema with the {@code $id} it lies under.
   *
   * @param id base of its references
   * @param schema the subschema
   */
  record Spot(String id, JsonNode schema) {
    /** A subschema of it. */
    Spot at(String keyword) {
      return new Spot(id, schema.path(keyword));
    }

    /** A subschema under a name. */
    Spot at(String keyword, String name) {
      return new Spot(id, schema.path(keyword).path(name));
    }

    boolean exists() {
      return !schema.isMissingNode();
    }
  }

  BundleReader(JsonNode bundle) {
    String id = bundle.path("$id").asString();
    byId.put(id, bundle);
    for (JsonNode definition : bundle.path("$defs")) {
      if (definition.has("$id")) {
        byId.put(definition.path("$id").asString(), definition);
      }
    }
    root = new Spot(id, bundle);
  }

  Spot root() {
    return root;
  }

  /** The schema that a subschema stands for; itself, if it refers to none. */
  Spot followed(Spot spot) {
    Spot here = spot;
    while (here.schema().has("$ref")) {
      String[] target = here.schema().path("$ref").asString().split("#", 2);
      String folder = here.id().substring(0, here.id().lastIndexOf('/') + 1);
      String id = target[0].isEmpty() ? here.id() : folder + target[0];
      JsonNode document = byId.get(id);
      if (document == null) {
        throw new IllegalArgumentException("the bundle " + root.id() + " lacks " + id);
      }
      here = new Spot(id, target.length > 1 ? document.at(target[1]) : document);
    }
    return here;
  }
}

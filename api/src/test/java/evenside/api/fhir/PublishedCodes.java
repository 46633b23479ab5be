package evenside.api.fhir;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/**
 * Whether codes are in the published list, read from the published files and the served code
 * systems alone. The official validator notices neither an invented LOINC code nor a wrong display.
 */
public final class PublishedCodes {
  private final Set<String> codings = new HashSet<>();
  private final Set<String> units = new HashSet<>();

  /**
   * The published codes.
   *
   * @param mapping {@code schemas/catalogue/fhir-codes.json}
   * @param systems the local code systems as served
   */
  public PublishedCodes(JsonNode mapping, List<JsonNode> systems) {
    mapping.path("external").forEach(one -> add(one.path("system").asString(), one));
    mapping.path("mappings").forEach(one -> add(one.path("system").asString(), one));
    mapping.path("units").forEach(unit -> units.add(unit.asString()));
    for (JsonNode system : systems) {
      system.path("concept").forEach(one -> add(system.path("url").asString(), one));
    }
  }

  private void add(String system, JsonNode concept) {
    codings.add(key(system, concept));
  }

  private static String key(String system, JsonNode concept) {
    return system
        + "|"
        + concept.path("code").asString()
        + "|"
        + concept.path("display").asString();
  }

  /** Codings and units of a resource that are not in the list. */
  public List<String> strangeIn(JsonNode resource) {
    List<String> strange = new ArrayList<>();
    walk(resource, strange);
    return strange;
  }

  private void walk(JsonNode node, List<String> strange) {
    if (node.isObject() && node.has("system") && node.has("code")) {
      boolean quantity = node.path("system").asString().equals("http://unitsofmeasure.org");
      String system = node.path("system").asString();
      boolean known =
          quantity
              ? units.contains(node.path("code").asString())
                  && node.path("unit").equals(node.path("code"))
              : codings.contains(key(system, node));
      if (!known) {
        strange.add(key(system, node));
      }
    }
    node.forEach(child -> walk(child, strange));
  }
}

package evenside.api.command;

import evenside.schemas.Contract;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Tells the kind of a document by its members. A document with a misspelt member must still be
 * told, or its fault could not be named: the kind is the one whose members it has most of, and
 * fewest others.
 */
final class Kinds {
  /** Asked about a past decision, with the members of other requests: never told, only named. */
  private static final Set<String> NAMED_ONLY = Set.of("replay-request", "what-if-request");

  private final SortedMap<String, JsonNode> schemas = new TreeMap<>();

  Kinds(Contract contract) {
    for (String kind : contract.kinds()) {
      if (!NAMED_ONLY.contains(kind)) {
        schemas.put(kind, JsonMapper.shared().readTree(contract.schema(kind)));
      }
    }
  }

  /** The kind, or nothing if none or several fit equally well. */
  Optional<String> of(JsonNode document) {
    int best = 0;
    List<String> fitting = new ArrayList<>();
    for (Map.Entry<String, JsonNode> schema : schemas.entrySet()) {
      int fit = fit(document, schema.getValue());
      if (fit > best) {
        best = fit;
        fitting.clear();
      }
      if (fit == best && fit > 0) {
        fitting.add(schema.getKey());
      }
    }
    return fitting.size() == 1 ? Optional.of(fitting.get(0)) : Optional.empty();
  }

  /** Two for each member that the kind has, minus one for each that it needs and misses. */
  private static int fit(JsonNode document, JsonNode schema) {
    int fit = 0;
    for (String name : document.propertyNames()) {
      // All kinds have a schemaVersion; it tells nothing.
      if (!name.equals("schemaVersion")) {
        fit += schema.path("properties").has(name) ? 2 : -2;
      }
    }
    for (JsonNode required : schema.path("required")) {
      fit -= document.has(required.asString()) ? 0 : 1;
    }
    return fit;
  }
}

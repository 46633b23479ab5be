package evenside.readiness.audit;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Two judgements criterion by criterion; criteria are the same if they have the same id. */
final class FindingChanges {
  private static final List<String> SHOWN =
      List.of("outcome", "value", "bound", "margin", "reason", "inputs");

  private FindingChanges() {}

  /**
   * Compares two judgements.
   *
   * @return one row for each criterion of either, in the order of the later one
   */
  static ArrayNode of(JsonNode before, JsonNode after) {
    Map<String, JsonNode> first = leaves(before);
    Map<String, JsonNode> second = leaves(after);
    Set<String> ids = new LinkedHashSet<>(second.keySet());
    ids.addAll(first.keySet());
    ArrayNode rows = JsonNodeFactory.instance.arrayNode();
    ids.forEach(id -> row(rows.addObject(), id, first.get(id), second.get(id)));
    return rows;
  }

  private static void row(
      ObjectNode row, String id, @Nullable JsonNode before, @Nullable JsonNode after) {
    row.put("criterion", id);
    row.put("change", change(before, after));
    JsonNode named = after == null ? before : after;
    if (named != null) {
      row.set("title", named.path("title"));
      row.set("required", named.path("required"));
    }
    if (before != null) {
      row.set("before", brief(before));
    }
    if (after != null) {
      row.set("after", brief(after));
    }
  }

  private static String change(@Nullable JsonNode before, @Nullable JsonNode after) {
    if (before == null || after == null) {
      return before == null ? "added" : "removed";
    }
    if (!before.path("outcome").equals(after.path("outcome"))) {
      return "outcome";
    }
    return brief(before).equals(brief(after)) ? "none" : "value";
  }

  private static ObjectNode brief(JsonNode finding) {
    ObjectNode brief = JsonNodeFactory.instance.objectNode();
    for (String member : SHOWN) {
      if (finding.has(member)) {
        brief.set(member, finding.path(member));
      }
    }
    return brief;
  }

  private static Map<String, JsonNode> leaves(JsonNode judgement) {
    Map<String, JsonNode> leaves = new LinkedHashMap<>();
    collect(judgement.path("finding"), leaves);
    judgement.path("informative").forEach(finding -> collect(finding, leaves));
    return leaves;
  }

  private static void collect(JsonNode finding, Map<String, JsonNode> leaves) {
    if (finding.has("of")) {
      finding.path("of").forEach(part -> collect(part, leaves));
    } else if (finding.isObject()) {
      leaves.put(finding.path("id").asString(), finding);
    }
  }
}

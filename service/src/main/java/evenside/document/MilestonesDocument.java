package evenside.document;

import evenside.criteria.Finding;
import evenside.criteria.Truth;
import evenside.decision.Caution;
import evenside.decision.Decision;
import evenside.decision.Milestone;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Where a case stands on each gate, as JSON. */
public final class MilestonesDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final ArrayNode milestones = JSON.arrayNode();
  private final Map<String, Caution> cautions = new LinkedHashMap<>();

  /** A gate held against its set; gives the entry to add to. */
  public ObjectNode add(Milestone milestone, Decision decision) {
    ObjectNode json = entry(milestone);
    json.set("criteriaSet", DecisionDocument.criteriaSet(decision.criteriaSet()));
    json.put("outcome", decision.outcome().code());
    json.put("summary", decision.summary());
    json.put("met", decision.required(Truth.MET).size());
    json.put("required", decision.finding().leaves().filter(leaf -> leaf.truth() != null).count());
    json.set("notMet", criteria(decision, Truth.NOT_MET));
    json.set("undetermined", criteria(decision, Truth.UNDETERMINED));
    PlanDocument.earliestByTime(decision.finding())
        .ifPresent(day -> json.put("earliestByTime", day.toString()));
    decision.cautions().forEach(caution -> cautions.putIfAbsent(caution.code(), caution));
    return json;
  }

  /** A gate without a usual set; gives the entry to add to. */
  public ObjectNode add(Milestone milestone) {
    return entry(milestone)
        .put("outcome", "no-usual-set")
        .put("summary", "This milestone has no usual criteria set; name one to decide on it.");
  }

  public ArrayNode milestones() {
    return milestones;
  }

  /** Every caution of any gate once. */
  public ArrayNode cautions() {
    return DecisionDocument.cautions(List.copyOf(cautions.values()));
  }

  private ObjectNode entry(Milestone milestone) {
    ObjectNode json = milestones.addObject();
    json.put("milestone", milestone.code()).put("title", milestone.title());
    json.put("order", milestone.order());
    if (milestone.note() != null) {
      json.put("note", milestone.note());
    }
    return json;
  }

  private static ArrayNode criteria(Decision decision, Truth truth) {
    ArrayNode array = JSON.arrayNode();
    decision
        .finding()
        .leaves()
        .filter(leaf -> leaf.truth() == truth)
        .forEach(
            leaf ->
                array
                    .addObject()
                    .put("criterion", leaf.id())
                    .put("title", leaf.title())
                    .put("text", missing(leaf)));
    return array;
  }

  private static String missing(Finding leaf) {
    if (leaf.toMeet() != null) {
      return leaf.toMeet().text();
    }
    return leaf.reason() == null ? leaf.title() : leaf.reason().text();
  }
}

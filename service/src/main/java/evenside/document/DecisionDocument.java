package evenside.document;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Finding;
import evenside.criteria.Truth;
import evenside.decision.Caution;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.decision.RepeatLooks;
import evenside.quantity.Quantity;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What a decision says, as members to be put into a decision or an assessment. */
public final class DecisionDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private DecisionDocument() {}

  /**
   * Everything that the computation gave; equal for equal inputs, with no id and no time of day.
   */
  public static ObjectNode judgement(Decision decision) {
    FindingDocument findings = new FindingDocument(decision.asOf());
    ObjectNode json = JSON.objectNode();
    json.put("asOf", decision.asOf().toString());
    json.set("cautions", cautions(decision.cautions()));
    json.set("criteriaSet", criteriaSet(decision.criteriaSet()));
    json.put("engineVersion", Engine.VERSION);
    json.set("finding", findings.finding(decision.finding()));
    json.set("informative", findings.findings(decision.informative()));
    json.set("notMet", ids(decision.required(Truth.NOT_MET)));
    json.put("outcome", decision.outcome().code());
    json.set("repeatLooks", looks(decision.looks()));
    json.put("summary", decision.summary());
    json.set("undetermined", ids(decision.required(Truth.UNDETERMINED)));
    return json;
  }

  static ArrayNode cautions(List<Caution> cautions) {
    ArrayNode array = JSON.arrayNode();
    cautions.forEach(caution -> array.add(caution(caution)));
    return array;
  }

  /** The findings of several sets on the same number side by side, in the order of the sets. */
  public static ArrayNode comparison(List<Decision> decisions) {
    Map<Question, ArrayNode> bySet = new HashMap<>();
    ArrayNode rows = JSON.arrayNode();
    for (Decision decision : decisions) {
      Map<String, Finding> findings = new HashMap<>();
      decision.finding().leaves().forEach(finding -> findings.put(finding.id(), finding));
      decision.informative().forEach(finding -> findings.put(finding.id(), finding));
      decision
          .criteriaSet()
          .leaves()
          .forEach(
              leaf ->
                  bySet
                      .computeIfAbsent(
                          Question.of(leaf), question -> question.row(rows).putArray("bySet"))
                      .add(
                          cell(
                              decision.criteriaSet(),
                              Objects.requireNonNull(findings.get(leaf.id())))));
    }
    return rows;
  }

  private static ObjectNode cell(CriteriaSet set, Finding finding) {
    ObjectNode json = JSON.objectNode();
    if (finding.bound() != null) {
      json.set("bound", FindingDocument.bound(finding.bound()));
    }
    json.put("criteriaSet", set.name());
    json.put("criterion", finding.id());
    json.put("outcome", FindingDocument.outcome(finding));
    json.put("required", finding.required());
    if (finding.value() != null) {
      FindingDocument.value(json, "value", finding.value());
    }
    return json;
  }

  static ObjectNode criteriaSet(CriteriaSet set) {
    ObjectNode json = JSON.objectNode();
    json.put("designedFor", set.designedFor()).put("id", set.id());
    json.put("milestone", set.milestone()).put("population", set.population());
    json.put("sha256", set.sha256()).put("source", set.source().text());
    return json.put("title", set.title()).put("version", set.version());
  }

  private static ObjectNode looks(RepeatLooks looks) {
    ObjectNode json = JSON.objectNode().put("batteries", looks.batteries());
    Quantity chance = new Quantity(looks.chanceOfFalseChange(), "%");
    json.set("chanceOfFalseChange", FindingDocument.quantity(chance));
    return json.put("days", RepeatLooks.DAYS);
  }

  static ObjectNode caution(Caution caution) {
    ObjectNode json = JSON.objectNode().put("code", caution.code());
    if (caution.source() != null) {
      json.put("source", caution.source());
    }
    return json.put("text", caution.text()).put("urgent", caution.urgent());
  }

  private static ArrayNode ids(List<String> ids) {
    ArrayNode array = JSON.arrayNode();
    ids.forEach(array::add);
    return array;
  }
}

package evenside.document;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Finding;
import evenside.criteria.Truth;
import evenside.decision.Caution;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.decision.RepeatLooks;
import evenside.quantity.Quantity;
import java.util.List;
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
    json.put("engineVersion", Engine.VERSION);
    json.set("criteriaSet", criteriaSet(decision.criteriaSet()));
    json.put("outcome", decision.outcome().code());
    json.put("summary", decision.summary());
    json.set("undetermined", ids(decision.required(Truth.UNDETERMINED)));
    json.set("notMet", ids(decision.required(Truth.NOT_MET)));
    json.set("finding", findings.finding(decision.finding()));
    json.set("informative", findings.findings(decision.informative()));
    json.set("cautions", cautions(decision.cautions()));
    json.set("repeatLooks", looks(decision.looks()));
    return json;
  }

  static ArrayNode cautions(List<Caution> cautions) {
    ArrayNode array = JSON.arrayNode();
    cautions.forEach(caution -> array.add(caution(caution)));
    return array;
  }

  /** The findings of several sets on the same number side by side, in the order of the sets. */
  public static ArrayNode comparison(List<Decision> decisions) {
    ArrayNode rows = JSON.arrayNode();
    java.util.Map<String, ObjectNode> byQuestion = new java.util.LinkedHashMap<>();
    for (Decision decision : decisions) {
      java.util.Map<String, Finding> findings = new java.util.HashMap<>();
      decision.finding().leaves().forEach(finding -> findings.put(finding.id(), finding));
      decision.informative().forEach(finding -> findings.put(finding.id(), finding));
      decision
          .criteriaSet()
          .leaves()
          .forEach(
              leaf -> {
                Question question = Question.of(leaf);
                ObjectNode row =
                    byQuestion.computeIfAbsent(question.key(), key -> question.row(rows));
                Finding finding = java.util.Objects.requireNonNull(findings.get(leaf.id()));
                row.withArray("bySet").add(cell(decision.criteriaSet(), finding));
              });
    }
    return rows;
  }

  private static ObjectNode cell(CriteriaSet set, Finding finding) {
    ObjectNode json = JSON.objectNode();
    json.put("criteriaSet", set.name());
    json.put("criterion", finding.id());
    if (finding.bound() != null) {
      json.set("bound", FindingDocument.bound(finding.bound()));
    }
    if (finding.value() != null) {
      FindingDocument.value(json, "value", finding.value());
    }
    json.put("outcome", finding.truth() == null ? "not-applicable" : finding.truth().code());
    json.put("required", finding.required());
    return json;
  }

  static ObjectNode criteriaSet(CriteriaSet set) {
    ObjectNode json = JSON.objectNode();
    json.put("id", set.id()).put("version", set.version()).put("sha256", set.sha256());
    json.put("title", set.title()).put("milestone", set.milestone());
    json.put("designedFor", set.designedFor()).put("population", set.population());
    json.put("source", set.source().text());
    return json;
  }

  private static ObjectNode looks(RepeatLooks looks) {
    ObjectNode json = JSON.objectNode();
    json.put("days", RepeatLooks.DAYS).put("batteries", looks.batteries());
    Quantity chance = new Quantity(looks.chanceOfFalseChange(), "%");
    json.set("chanceOfFalseChange", FindingDocument.quantity(chance));
    return json;
  }

  static ObjectNode caution(Caution caution) {
    ObjectNode json = JSON.objectNode().put("code", caution.code()).put("text", caution.text());
    json.put("urgent", caution.urgent());
    if (caution.source() != null) {
      json.put("source", caution.source());
    }
    return json;
  }

  private static ArrayNode ids(List<String> ids) {
    ArrayNode array = JSON.arrayNode();
    ids.forEach(array::add);
    return array;
  }
}

package evenside.document;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.Finding;
import evenside.decision.Decision;
import evenside.measure.Value;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The findings of several sets on the same number side by side, as JSON. */
public final class ComparisonDocument {
  private ComparisonDocument() {}

  /** What one set says on a question. */
  private record Cell(CriteriaSet set, Finding finding, Criterion.Leaf criterion) {}

  /** One row for each question, in the order of the sets. */
  public static void write(CanonicalWriter json, List<Decision> decisions) {
    Map<Question, List<Cell>> rows = new LinkedHashMap<>();
    for (Decision decision : decisions) {
      for (Finding finding : leaves(decision)) {
        Criterion.Leaf criterion = (Criterion.Leaf) finding.criterion();
        rows.computeIfAbsent(Question.of(criterion), any -> new ArrayList<>(decisions.size()))
            .add(new Cell(decision.criteriaSet(), finding, criterion));
      }
    }
    json.array();
    rows.forEach((question, cells) -> row(json, question, cells));
    json.end();
  }

  private static List<Finding> leaves(Decision decision) {
    List<Finding> leaves = new ArrayList<>();
    decision.finding().addLeaves(leaves);
    for (Finding informative : decision.informative()) {
      informative.addLeaves(leaves);
    }
    return leaves;
  }

  private static void row(CanonicalWriter json, Question question, List<Cell> cells) {
    json.object().putIfAny("aspect", question.aspect());
    json.name("bySet").array(cells, ComparisonDocument::cell);
    json.put("measure", question.measure());
    question.protocol(json.name("protocol"));
    json.end();
  }

  private static void cell(CanonicalWriter json, Cell cell) {
    Finding finding = cell.finding();
    json.object();
    FindingDocument.bound(json.name("bound"), cell.criterion());
    json.put("criteriaSet", cell.set().name()).put("criterion", finding.id());
    json.put("outcome", FindingDocument.outcome(finding)).put("required", finding.required());
    Value value = finding.value();
    if (value != null) {
      FindingDocument.value(json.name("value"), value);
    }
    json.end();
  }
}

package evenside.readiness.decision;

import evenside.criteria.Finding;
import evenside.criteria.Truth;
import evenside.decision.Decision;
import evenside.store.cohort.FindingRow;
import java.util.ArrayList;
import java.util.List;

/** What a decision is counted by in a cohort: the whole set, then each single criterion. */
final class FindingRows {
  private FindingRows() {}

  static List<FindingRow> of(Decision decision) {
    List<FindingRow> rows = new ArrayList<>();
    rows.add(new FindingRow(FindingRow.WHOLE_SET, decision.outcome().code(), true, false));
    boolean one = decision.required(Truth.NOT_MET).size() == 1;
    decision.finding().leaves().forEach(leaf -> rows.add(row(leaf, one)));
    decision.informative().stream()
        .flatMap(Finding::leaves)
        .forEach(leaf -> rows.add(row(leaf, false)));
    return rows;
  }

  private static FindingRow row(Finding leaf, boolean onlyOneNotMet) {
    String outcome = leaf.truth() == null ? FindingRow.NOT_APPLICABLE : leaf.truth().code();
    boolean alone = onlyOneNotMet && leaf.truth() == Truth.NOT_MET;
    return new FindingRow(leaf.id(), outcome, leaf.required(), alone);
  }
}

package evenside.decision;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.Finding;
import evenside.criteria.Truth;
import evenside.knee.KneeCase;
import evenside.measure.Evidence;
import java.util.ArrayList;
import java.util.List;

/**
 * Turns a criteria set and evidence into a decision. A pure function: the same set, case, evidence
 * and engine version give the same findings.
 */
public final class Decider {
  private final Cautions cautions;

  public Decider(Cautions cautions) {
    this.cautions = cautions;
  }

  /** Evaluates every criterion, also those that can no longer change the outcome. */
  public Decision decide(CriteriaSet set, KneeCase kneeCase, Evidence evidence, RepeatLooks looks) {
    List<Finding> leaves = new ArrayList<>();
    Finding finding = set.criteria().evaluate(evidence, true);
    finding.addLeaves(leaves);
    List<Finding> informative = new ArrayList<>(set.informative().size());
    for (Criterion criterion : set.informative()) {
      Finding shown = criterion.evaluate(evidence, false);
      informative.add(shown);
      shown.addLeaves(leaves);
    }
    Truth outcome = finding.truth() == null ? Truth.UNDETERMINED : finding.truth();
    return new Decision(
        evidence.asOf(),
        set,
        outcome,
        finding,
        informative,
        cautions.of(new Situation(kneeCase, set, evidence, leaves, looks)),
        looks);
  }
}

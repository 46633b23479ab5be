package evenside.decision;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Finding;
import evenside.criteria.Truth;
import evenside.knee.KneeCase;
import evenside.measure.Evidence;
import evenside.measure.MeasureCatalogue;
import java.util.List;
import java.util.stream.Stream;

/**
 * Turns a criteria set and evidence into a decision. A pure function: the same set, case, evidence
 * and engine version give the same findings.
 */
public final class Decider {
  private final MeasureCatalogue catalogue;
  private final Cautions cautions;

  public Decider(MeasureCatalogue catalogue, Cautions cautions) {
    this.catalogue = catalogue;
    this.cautions = cautions;
  }

  /** Evaluates every criterion, also those that can no longer change the outcome. */
  public Decision decide(CriteriaSet set, KneeCase kneeCase, Evidence evidence, RepeatLooks looks) {
    Finding finding = set.criteria().evaluate(evidence, catalogue, true);
    List<Finding> informative =
        set.informative().stream()
            .map(criterion -> criterion.evaluate(evidence, catalogue, false))
            .toList();
    List<Finding> leaves =
        Stream.concat(Stream.of(finding), informative.stream()).flatMap(Finding::leaves).toList();
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

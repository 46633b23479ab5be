package evenside.store;

import java.time.Instant;
import java.util.Optional;

/**
 * Which decisions a search lists. An absent member means any.
 *
 * @param caseId the case
 * @param milestone the gate decided for
 * @param criteriaSet id of the criteria set
 * @param criteriaVersion its version
 * @param outcome met, not-met or undetermined
 * @param decidedFrom earliest time of recording, inclusive
 * @param decidedBefore latest time of recording, exclusive
 */
public record DecisionFilter(
    Optional<String> caseId,
    Optional<String> milestone,
    Optional<String> criteriaSet,
    Optional<String> criteriaVersion,
    Optional<String> outcome,
    Optional<Instant> decidedFrom,
    Optional<Instant> decidedBefore) {
  /** Every decision of the clinic. */
  public static final DecisionFilter ALL =
      new DecisionFilter(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  /**
   * The decisions on one case.
   *
   * @param caseId the case
   * @return the filter
   */
  public static DecisionFilter ofCase(String caseId) {
    return new DecisionFilter(
        Optional.of(caseId),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}

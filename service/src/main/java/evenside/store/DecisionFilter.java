package evenside.store;

import java.time.Instant;
import java.util.Optional;

/**
 * Which decisions a search lists. An absent member means any.
 *
 * @param caseId the case
 * @param milestone the milestone decided for
 * @param criteriaSet id of the criteria set
 * @param criteriaVersion its version
 * @param outcome met, not-met or undetermined
 * @param decidedFrom earliest time of recording, inclusive
 * @param decidedBefore latest time of recording, exclusive
 * @param subject reference of the person
 * @param clinician reference of who made a determination on it
 * @param differing true: a determination says other than the outcome; false: some determination
 *     says the same
 */
public record DecisionFilter(
    Optional<String> caseId,
    Optional<String> milestone,
    Optional<String> criteriaSet,
    Optional<String> criteriaVersion,
    Optional<String> outcome,
    Optional<Instant> decidedFrom,
    Optional<Instant> decidedBefore,
    Optional<String> subject,
    Optional<String> clinician,
    Optional<Boolean> differing) {
  /** Decisions, whatever clinicians said on them and whoever they are about. */
  public DecisionFilter(
      Optional<String> caseId,
      Optional<String> milestone,
      Optional<String> criteriaSet,
      Optional<String> criteriaVersion,
      Optional<String> outcome,
      Optional<Instant> decidedFrom,
      Optional<Instant> decidedBefore) {
    this(
        caseId,
        milestone,
        criteriaSet,
        criteriaVersion,
        outcome,
        decidedFrom,
        decidedBefore,
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

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
   * The same, asked of the person and of the determinations too.
   *
   * @return the filter
   */
  public DecisionFilter about(
      Optional<String> person, Optional<String> determinedBy, Optional<Boolean> otherwise) {
    return new DecisionFilter(
        caseId,
        milestone,
        criteriaSet,
        criteriaVersion,
        outcome,
        decidedFrom,
        decidedBefore,
        person,
        determinedBy,
        otherwise);
  }

  /** The same on one case, whoever it is about. */
  DecisionFilter onCase(String theCase) {
    return new DecisionFilter(
        Optional.of(theCase),
        milestone,
        criteriaSet,
        criteriaVersion,
        outcome,
        decidedFrom,
        decidedBefore,
        Optional.empty(),
        clinician,
        differing);
  }

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

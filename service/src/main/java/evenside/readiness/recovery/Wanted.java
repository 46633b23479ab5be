package evenside.readiness.recovery;

import evenside.criteria.CriteriaSet;
import evenside.intake.RuleCode;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.Fault;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import tools.jackson.core.JsonPointer;

/**
 * Which criteria set a question is about.
 *
 * @param milestone the milestone, whose usual set is taken if none is named
 * @param criteriaSet the set as {@code id/version}
 * @param asOf the date asked for; today on the clinic's calendar if none
 */
public record Wanted(
    Optional<String> milestone, Optional<String> criteriaSet, Optional<LocalDate> asOf) {
  /** No set in particular, today. */
  public static final Wanted ANY = new Wanted(Optional.empty(), Optional.empty(), Optional.empty());

  boolean namesSet() {
    return milestone.isPresent() || criteriaSet.isPresent();
  }

  /**
   * The set.
   *
   * @throws Refused {@link Refusal#INVALID} if there is none, or it is for another milestone
   */
  public CriteriaSet set(Records records, String clinic) {
    if (criteriaSet.isPresent()) {
      CriteriaSet set =
          records
              .sets(clinic)
              .find(criteriaSet.get())
              .orElseThrow(
                  () ->
                      refused(
                          "/criteriaSet",
                          RuleCode.CRITERIA_SET_UNKNOWN,
                          "there is no such criteria set in this version; /v1/criteria-sets lists"
                              + " them, and a milestone alone takes its usual one",
                          usual(records)));
      if (milestone.isPresent() && !milestone.get().equals(set.milestone())) {
        throw refused(
            "/criteriaSet",
            RuleCode.CRITERIA_SET_OTHER_MILESTONE,
            "this set is for " + set.milestone(),
            milestone.get());
      }
      return set;
    }
    return records
        .published()
        .usualSet(milestone.orElse(""))
        .orElseThrow(
            () ->
                refused(
                    "/milestone",
                    RuleCode.MILESTONE_NO_USUAL_SET,
                    "name a milestone that has a usual criteria set, or a criteriaSet as"
                        + " id/version; /v1/criteria-sets lists them",
                    usual(records)));
  }

  private static String usual(Records records) {
    return records.published().intake().milestonesWithUsualSet();
  }

  private static Refused refused(String pointer, RuleCode code, String detail, String limit) {
    Fault fault = Fault.at(JsonPointer.compile(pointer), code.code(), detail);
    return Refused.faulty(List.of(fault.withLimit(limit)));
  }
}

package evenside.readiness;

import evenside.store.cohort.CohortQuery;
import java.time.LocalDate;
import java.util.Optional;

/**
 * Which cases are enrolled in a cohort. An absent member means any.
 *
 * @param sex code
 * @param graft code
 * @param ageFrom youngest, calendar years from birth year to year of surgery
 * @param ageTo oldest, likewise, inclusive
 * @param surgeryFrom first day of surgery
 * @param surgeryTo last day of surgery, inclusive
 */
public record CohortFilter(
    Optional<String> sex,
    Optional<String> graft,
    Optional<Integer> ageFrom,
    Optional<Integer> ageTo,
    Optional<LocalDate> surgeryFrom,
    Optional<LocalDate> surgeryTo) {
  /** Every case of the clinic. */
  public static final CohortFilter EVERYBODY =
      new CohortFilter(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  CohortQuery query() {
    return new CohortQuery(sex, graft, ageFrom, ageTo, surgeryFrom, surgeryTo);
  }
}

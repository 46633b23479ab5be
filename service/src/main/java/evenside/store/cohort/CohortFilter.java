package evenside.store.cohort;

import java.time.LocalDate;
import java.util.Optional;

/**
 * Which cases a cohort holds. An absent member means any.
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

  /**
   * Which decision of each case counts: the newest by one set within a span of dates.
   *
   * @param criteriaSet id of the set
   * @param criteriaVersion its version
   * @param from first date decided for
   * @param to last date decided for, inclusive
   */
  public record Decided(String criteriaSet, String criteriaVersion, LocalDate from, LocalDate to) {}
}

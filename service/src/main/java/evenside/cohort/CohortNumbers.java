package evenside.cohort;

import java.util.List;
import java.util.Map;

/**
 * What is known of a cohort, before anything is hidden.
 *
 * @param enrolled cases that pass the filter
 * @param overall the set as a whole
 * @param criteria single criteria in the order of the set
 * @param determined what clinicians determined
 * @param times time from surgery to each milestone, by code
 */
public record CohortNumbers(
    int enrolled,
    Tally overall,
    List<Tally> criteria,
    Determined determined,
    Map<String, SurvivalCurve> times) {
  public CohortNumbers {
    criteria = List.copyOf(criteria);
  }

  /** Cases with a decision. */
  public int decided() {
    return overall.met() + overall.notMet() + overall.undetermined();
  }
}

package evenside.readiness.computing;

import evenside.load.SdMethod;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;

/**
 * What is asked of the training record.
 *
 * @param asOf the date; absent means today by the service's clock in UTC, or the newest entry's day
 *     if that is later
 * @param plannedOn day of the next session, to be held against the limits of its plan
 * @param sets {@code id/version} of progressions to be counted beside those that always count
 * @param sdMethod kind of standard deviation of monotony
 * @param acuteChronic true to show acute and chronic load, which are descriptive only
 */
public record AdviceQuestion(
    Optional<LocalDate> asOf,
    Optional<LocalDate> plannedOn,
    Set<String> sets,
    SdMethod sdMethod,
    boolean acuteChronic) {
  /** Today, nothing planned, the usual rules, nothing that is off by default. */
  public static final AdviceQuestion TODAY =
      new AdviceQuestion(Optional.empty(), Optional.empty(), Set.of(), SdMethod.SAMPLE, false);

  public AdviceQuestion {
    sets = Set.copyOf(sets);
  }
}

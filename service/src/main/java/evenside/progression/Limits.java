package evenside.progression;

import org.jspecify.annotations.Nullable;

/**
 * How often a progression may be done. The seven days are a rolling window that includes the
 * planned day, not a calendar week.
 *
 * @param daysBetween fewest days from one session to the next
 * @param sessionsIn7Days most sessions in any seven days, or null
 * @param levelUpsIn7Days most steps up in any seven days, or null
 */
public record Limits(
    int daysBetween, @Nullable Integer sessionsIn7Days, @Nullable Integer levelUpsIn7Days) {
  /** Where a progression says nothing: not twice on a day. */
  public static final Limits NONE = new Limits(1, null, null);
}

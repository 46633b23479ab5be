package evenside.progression;

import org.jspecify.annotations.Nullable;

/**
 * One step of a progression.
 *
 * @param number from 1
 * @param title what is done, in words
 * @param track the same on a running track, or null
 * @param effortMost effort not to be exceeded, or null
 * @param sessions how often it is done before the next
 * @param daysBetween fewest days to the next session, or null for the progression's own
 */
public record Level(
    int number,
    String title,
    @Nullable String track,
    @Nullable Double effortMost,
    int sessions,
    @Nullable Integer daysBetween) {}

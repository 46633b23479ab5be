package evenside.training;

import org.jspecify.annotations.Nullable;

/**
 * The step of a published progression that was planned.
 *
 * @param set code of the progression
 * @param version its version, or null for the newest
 * @param level from 1
 */
public record Programme(String set, @Nullable String version, int level) {}

package evenside.training;

import org.jspecify.annotations.Nullable;

/**
 * The level of a published progression that was planned.
 *
 * @param id id of the progression
 * @param version its version, or null for the newest
 * @param level from 1
 */
public record PlannedLevel(String id, @Nullable String version, int level) {}

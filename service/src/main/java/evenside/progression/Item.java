package evenside.progression;

import evenside.training.Contacts;
import evenside.training.PlannedLevel;
import org.jspecify.annotations.Nullable;

/**
 * What one training did of one piece of work.
 *
 * @param key the piece of work
 * @param exercise code of the exercise, or of the piece of work where there is none
 * @param progression the planned level of a progression, or null
 * @param percent completed dose in percent of the planned one, at most 100, or null
 * @param surface what was run on, or null
 * @param path {@code straight}, {@code curves}, {@code cutting}, or null
 * @param braceWorn or null
 * @param overTarget repetitions of the last set above the target, or null
 * @param loadKg load moved, or null
 * @param cleanHolds whether every hold reached its time in good form, or null
 * @param contacts foot contacts
 */
record Item(
    WorkKey key,
    String exercise,
    @Nullable PlannedLevel progression,
    @Nullable Double percent,
    @Nullable String surface,
    @Nullable String path,
    @Nullable Boolean braceWorn,
    @Nullable Integer overTarget,
    @Nullable Double loadKg,
    @Nullable Boolean cleanHolds,
    Contacts contacts) {

  /** Level of the progression; 0 without one. */
  int level() {
    return progression == null ? 0 : progression.level();
  }
}

package evenside.progression;

import evenside.training.Contacts;
import evenside.training.Programme;
import org.jspecify.annotations.Nullable;

/**
 * What one training did of one track.
 *
 * @param key the track
 * @param exercise code of the exercise, or of the track where there is none
 * @param programme the planned step, or null
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
    TrackKey key,
    String exercise,
    @Nullable Programme programme,
    @Nullable Double percent,
    @Nullable String surface,
    @Nullable String path,
    @Nullable Boolean braceWorn,
    @Nullable Integer overTarget,
    @Nullable Double loadKg,
    @Nullable Boolean cleanHolds,
    Contacts contacts) {

  /** Level of the plan; 0 without one. */
  int level() {
    return programme == null ? 0 : programme.level();
  }
}

package evenside.progression;

import evenside.training.Limb;
import org.jspecify.annotations.Nullable;

/**
 * What advice is for: a progression, an exercise with one side, or the drills.
 *
 * @param family kind of work
 * @param code code of the progression or exercise
 * @param side the leg, or null
 */
public record WorkKey(String family, String code, @Nullable Limb side) {
  static final String RUNNING = "running";
  static final String STRENGTH = "strength";
  static final String CORE = "core";
  static final String DRILLS = "drills";
  static final String FREE_RUN = "free-run";
}

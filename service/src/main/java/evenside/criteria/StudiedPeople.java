package evenside.criteria;

import evenside.knee.KneeCase;
import evenside.knee.Sex;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The people a set was made or studied on, as far as a case can be held against it.
 *
 * @param sex the one sex studied, or null for both
 * @param standard the standard of sport studied, or null for any
 * @param sportLevels the sport levels studied; empty for any
 */
public record StudiedPeople(@Nullable Sex sex, @Nullable String standard, Set<String> sportLevels) {
  public StudiedPeople {
    sportLevels = Set.copyOf(sportLevels);
  }

  /**
   * True if nothing known about the case lies outside; what is not stated does not count as inside.
   */
  public boolean covers(KneeCase kneeCase) {
    String level = kneeCase.sportLevel();
    return (sex == null || sex == kneeCase.sex())
        && (standard == null || standard.equals(kneeCase.standard()))
        && (sportLevels.isEmpty() || (level != null && sportLevels.contains(level)));
  }
}

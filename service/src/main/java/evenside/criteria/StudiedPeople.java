package evenside.criteria;

import evenside.knee.KneeCase;
import evenside.knee.Sex;
import java.util.ArrayList;
import java.util.List;
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

  /** One thing that was the same, or of few kinds, in all who were studied. */
  private record Trait(String name, Set<String> studied, @Nullable String here) {
    boolean differs() {
      return here != null && !studied.contains(here);
    }

    String difference() {
      String there = String.join(" or ", studied.stream().sorted().toList());
      return (name + " (here " + here + ", studied " + there + ")").replace('-', ' ');
    }
  }

  /** What is known of the case and lies outside, each in words. */
  public List<String> differences(KneeCase kneeCase) {
    return traits(kneeCase).stream().filter(Trait::differs).map(Trait::difference).toList();
  }

  /** What the case does not state, so that it may lie inside or outside. */
  public List<String> notStated(KneeCase kneeCase) {
    return traits(kneeCase).stream().filter(one -> one.here() == null).map(Trait::name).toList();
  }

  private List<Trait> traits(KneeCase kneeCase) {
    List<Trait> traits = new ArrayList<>();
    if (sex != null) {
      Sex stated = kneeCase.sex();
      String here = stated == Sex.NOT_STATED ? null : stated.code();
      traits.add(new Trait("sex", Set.of(sex.code()), here));
    }
    if (standard != null) {
      traits.add(new Trait("standard of sport", Set.of(standard), kneeCase.standard()));
    }
    if (!sportLevels.isEmpty()) {
      traits.add(new Trait("sport level", sportLevels, kneeCase.sportLevel()));
    }
    return traits;
  }
}

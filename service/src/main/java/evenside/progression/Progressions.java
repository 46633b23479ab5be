package evenside.progression;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** All progressions that can be used, and the inputs their rules may look at. */
public final class Progressions {
  private final List<Progression> sets;
  private final InputCatalogue inputs;

  /**
   * Takes sets and inputs.
   *
   * @throws IllegalArgumentException if a rule looks at an input that is not in the catalogue
   */
  public Progressions(List<Progression> sets, InputCatalogue inputs) {
    this.sets = List.copyOf(sets);
    this.inputs = inputs;
    for (Progression set : sets) {
      for (Rule rule : set.rules()) {
        rule.when().tests().forEach(test -> inputs.get(test.input()));
      }
    }
  }

  public List<Progression> all() {
    return sets;
  }

  public InputCatalogue inputs() {
    return inputs;
  }

  /**
   * A set by code and version.
   *
   * @param version or null for the newest
   */
  public Optional<Progression> find(String id, @Nullable String version) {
    return sets.stream()
        .filter(set -> set.id().equals(id))
        .filter(set -> version == null || set.version().equals(version))
        .max(Comparator.comparing(Progression::version, Progressions::byNumbers));
  }

  /** The sets about the knee, and those for a kind of work that need not be named. */
  List<Progression> unnamed(String family, String exercise) {
    List<Progression> found = new ArrayList<>();
    for (Progression set : sets) {
      boolean fits = set.isAboutKnee() || set.appliesTo().equals(family);
      boolean forIt = set.exercises().isEmpty() || set.exercises().contains(exercise);
      if (fits && forIt && set.use() != Progression.Use.NAMED) {
        found.add(set);
      }
    }
    return found;
  }

  /** Versions are numbers and dots: 10 comes after 9, 1.2 after 1. */
  private static int byNumbers(String a, String b) {
    String[] left = a.split("\\.", -1);
    String[] right = b.split("\\.", -1);
    for (int i = 0; i < Math.min(left.length, right.length); i++) {
      int compared = Long.compare(number(left[i]), number(right[i]));
      if (compared != 0) {
        return compared;
      }
    }
    return Integer.compare(left.length, right.length);
  }

  private static long number(String digits) {
    return digits.isEmpty() ? 0 : Long.parseLong(digits);
  }
}

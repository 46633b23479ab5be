package evenside.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Numbers and gaps by the measure they are about, numbers newest first; those of one time keep
 * their order. A criterion then looks at what concerns it, however much was measured besides.
 */
final class EvidenceIndex {
  private static final Comparator<Measured> NEWEST_FIRST =
      Comparator.comparing(Measured::performedAt).reversed();

  private static final OfMeasure NOTHING = new OfMeasure();

  private final Map<String, OfMeasure> byMeasure = new HashMap<>();

  EvidenceIndex(List<Measured> measured, List<Gap> gaps) {
    for (Measured one : measured) {
      byMeasure.computeIfAbsent(one.measure(), any -> new OfMeasure()).add(one);
    }
    for (Gap gap : gaps) {
      byMeasure.computeIfAbsent(gap.measure(), any -> new OfMeasure()).gaps.add(gap);
    }
    byMeasure.values().forEach(OfMeasure::sort);
  }

  /** What there is of one measure. */
  OfMeasure of(String measure) {
    OfMeasure found = byMeasure.get(measure);
    return found == null ? NOTHING : found;
  }

  /** What there is of one measure: all values of each number, and what is missing. */
  static final class OfMeasure {
    private final Map<Aspect, List<Measured>> measured = new EnumMap<>(Aspect.class);
    private final List<Gap> gaps = new ArrayList<>(0);

    private void add(Measured one) {
      measured.computeIfAbsent(one.aspect(), any -> new ArrayList<>(1)).add(one);
    }

    private void sort() {
      measured.replaceAll((aspect, numbers) -> newestFirst(numbers));
    }

    private static List<Measured> newestFirst(List<Measured> numbers) {
      if (numbers.size() > 1) {
        numbers.sort(NEWEST_FIRST);
      }
      return List.copyOf(numbers);
    }

    /** All values of one number, newest first. */
    List<Measured> measured(Aspect aspect) {
      List<Measured> found = measured.get(aspect);
      return found == null ? List.of() : found;
    }

    /** What is missing, in the order it was found. */
    List<Gap> gaps() {
      return gaps;
    }
  }
}

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

  private final Map<Aspect, Map<String, List<Measured>>> measured = new EnumMap<>(Aspect.class);
  private final Map<String, List<Gap>> gaps = new HashMap<>();

  EvidenceIndex(List<Measured> measured, List<Gap> gaps) {
    for (Measured one : measured) {
      this.measured
          .computeIfAbsent(one.aspect(), any -> new HashMap<>())
          .computeIfAbsent(one.measure(), any -> new ArrayList<>(1))
          .add(one);
    }
    for (Map<String, List<Measured>> ofAspect : this.measured.values()) {
      ofAspect.replaceAll((measure, numbers) -> newestFirst(numbers));
    }
    for (Gap gap : gaps) {
      this.gaps.computeIfAbsent(gap.measure(), any -> new ArrayList<>(1)).add(gap);
    }
  }

  private static List<Measured> newestFirst(List<Measured> numbers) {
    if (numbers.size() > 1) {
      numbers.sort(NEWEST_FIRST);
    }
    return List.copyOf(numbers);
  }

  /** All values of one number, newest first. */
  List<Measured> measured(String measure, Aspect aspect) {
    Map<String, List<Measured>> ofAspect = measured.get(aspect);
    List<Measured> found = ofAspect == null ? null : ofAspect.get(measure);
    return found == null ? List.of() : found;
  }

  /** What is missing of a measure, in the order it was found. */
  List<Gap> gaps(String measure) {
    List<Gap> found = gaps.get(measure);
    return found == null ? List.of() : found;
  }
}

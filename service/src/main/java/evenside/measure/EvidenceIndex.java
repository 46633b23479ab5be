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

  private final Map<String, Map<Aspect, List<Measured>>> measured = new HashMap<>();
  private final Map<String, List<Gap>> gaps = new HashMap<>();

  EvidenceIndex(List<Measured> measured, List<Gap> gaps) {
    for (Measured one : measured) {
      this.measured
          .computeIfAbsent(one.measure(), any -> new EnumMap<>(Aspect.class))
          .computeIfAbsent(one.aspect(), any -> new ArrayList<>(1))
          .add(one);
    }
    for (Map<Aspect, List<Measured>> ofMeasure : this.measured.values()) {
      ofMeasure.values().forEach(numbers -> numbers.sort(NEWEST_FIRST));
    }
    for (Gap gap : gaps) {
      this.gaps.computeIfAbsent(gap.measure(), any -> new ArrayList<>(1)).add(gap);
    }
  }

  /** All values of one number, newest first. */
  List<Measured> measured(String measure, Aspect aspect) {
    return measured.getOrDefault(measure, Map.of()).getOrDefault(aspect, List.of());
  }

  /** What is missing of a measure, in the order it was found. */
  List<Gap> gaps(String measure) {
    return gaps.getOrDefault(measure, List.of());
  }
}

package evenside.measure;

import evenside.knee.Sex;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** All measures that are known, with what was published about their error and other people. */
public final class MeasureCatalogue {
  private final Map<String, Measure> measures = new LinkedHashMap<>();
  private final Map<String, Integer> positions = new HashMap<>();
  private final Map<String, List<MeasurementError>> errors;
  private final Map<String, List<ReferenceValue>> references = new HashMap<>();

  /** A catalogue without reference values. */
  public MeasureCatalogue(Collection<Measure> measures, Collection<MeasurementError> errors) {
    this(measures, errors, List.of());
  }

  public MeasureCatalogue(
      Collection<Measure> measures,
      Collection<MeasurementError> errors,
      List<ReferenceValue> references) {
    for (ReferenceValue value : references) {
      for (String measure : value.measures()) {
        this.references.computeIfAbsent(measure, any -> new ArrayList<>()).add(value);
      }
    }
    for (Measure measure : measures) {
      positions.put(measure.code(), positions.size());
      this.measures.put(measure.code(), measure);
    }
    this.errors = errors.stream().collect(Collectors.groupingBy(MeasurementError::measure));
  }

  public Optional<Measure> find(String code) {
    return Optional.ofNullable(measures.get(code));
  }

  /**
   * The measure with this code.
   *
   * @throws IllegalArgumentException if the catalogue has no such measure
   */
  public Measure get(String code) {
    return find(code)
        .orElseThrow(() -> new IllegalArgumentException("measure " + code + " is not known"));
  }

  /** Place of a measure in the catalogue, from 0; -1 if it is not there. */
  public int position(String code) {
    return positions.getOrDefault(code, -1);
  }

  public Collection<Measure> all() {
    return measures.values();
  }

  /** What was published about one number in other people, those of another sex left out. */
  public List<ReferenceValue> context(
      String measure, Aspect aspect, Protocol protocol, Sex person) {
    return references.getOrDefault(measure, List.of()).stream()
        .filter(value -> value.suits(measure, aspect, protocol, person))
        .toList();
  }

  /**
   * The published error of one number of a measure, if there is one for this way of testing: that
   * of scores joined in the same way, else one whose study does not say, else one of scores joined
   * in another way, which the error names.
   */
  public Optional<MeasurementError> errorOf(
      String measure, Aspect aspect, Protocol protocol, Aggregation aggregation) {
    MeasurementError nearest = null;
    for (MeasurementError error : errors.getOrDefault(measure, List.of())) {
      if (error.describes(aspect, protocol)) {
        if (error.aggregation() == aggregation) {
          return Optional.of(error);
        }
        if (nearest == null || (nearest.aggregation() != null && error.aggregation() == null)) {
          nearest = error;
        }
      }
    }
    return Optional.ofNullable(nearest);
  }
}

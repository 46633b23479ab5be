package evenside.measure;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** All measures that are known, with their published measurement errors. */
public final class MeasureCatalogue {
  private final Map<String, Measure> measures = new LinkedHashMap<>();
  private final Map<String, List<MeasurementError>> errors;

  public MeasureCatalogue(Collection<Measure> measures, Collection<MeasurementError> errors) {
    measures.forEach(measure -> this.measures.put(measure.code(), measure));
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

  public Collection<Measure> all() {
    return measures.values();
  }

  /** The published error of one number of a measure, if there is one for this way of testing. */
  public Optional<MeasurementError> errorOf(String measure, Aspect aspect, Protocol protocol) {
    return errors.getOrDefault(measure, List.of()).stream()
        .filter(error -> error.describes(aspect, protocol))
        .findFirst();
  }
}

package evenside.measure;

import evenside.knee.Sex;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** All measures that are known, with what was published about their error and other people. */
public final class MeasureCatalogue {
  private final Map<String, Measure> measures = new LinkedHashMap<>();
  private final Map<String, Integer> positions = new HashMap<>();
  private final Map<String, CatalogueEntry> entries = new HashMap<>();

  /** A catalogue without reference values. */
  public MeasureCatalogue(Collection<Measure> measures, Collection<MeasurementError> errors) {
    this(measures, errors, List.of());
  }

  public MeasureCatalogue(
      Collection<Measure> measures,
      Collection<MeasurementError> errors,
      List<ReferenceValue> references) {
    Map<String, List<MeasurementError>> errorsOf = new HashMap<>();
    for (MeasurementError error : errors) {
      errorsOf.computeIfAbsent(error.measure(), any -> new ArrayList<>()).add(error);
    }
    Map<String, List<ReferenceValue>> referencesOf = new HashMap<>();
    for (ReferenceValue value : references) {
      for (String measure : value.measures()) {
        referencesOf.computeIfAbsent(measure, any -> new ArrayList<>()).add(value);
      }
    }
    for (Measure measure : measures) {
      String code = measure.code();
      positions.put(code, positions.size());
      this.measures.put(code, measure);
      entries.put(
          code,
          new CatalogueEntry(
              code,
              measure,
              errorsOf.getOrDefault(code, List.of()),
              referencesOf.getOrDefault(code, List.of())));
    }
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
    return entry(code).measure();
  }

  /** All that is known under a code; an entry without a measure if the catalogue has none. */
  public CatalogueEntry entry(String code) {
    CatalogueEntry entry = entries.get(code);
    return entry != null ? entry : new CatalogueEntry(code, null, List.of(), List.of());
  }

  /** Place of a measure in the catalogue, from 0; -1 if it is not there. */
  public int position(String code) {
    return positions.getOrDefault(code, -1);
  }

  public Collection<Measure> all() {
    return Collections.unmodifiableCollection(measures.values());
  }

  /** What was published about one number in other people: {@link CatalogueEntry#context}. */
  public List<ReferenceValue> context(
      String measure, Aspect aspect, Protocol protocol, Sex person) {
    return entry(measure).context(aspect, protocol, person);
  }

  /** The published error of one number, if there is one: {@link CatalogueEntry#errorOf}. */
  public Optional<MeasurementError> errorOf(
      String measure, Aspect aspect, Protocol protocol, Aggregation aggregation) {
    return Optional.ofNullable(entry(measure).errorOf(aspect, protocol, aggregation));
  }
}

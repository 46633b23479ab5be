package evenside.measure;

import evenside.knee.Sex;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All that the catalogue has under one code: the measure, and what was published about its error
 * and about other people. A criterion keeps the entry it is about, so nothing is looked up by name
 * while it is evaluated.
 */
public final class CatalogueEntry {
  private final String code;
  private final @Nullable Measure measure;
  private final boolean questionnaire;
  private final List<MeasurementError> errors;
  private final List<ReferenceValue> references;

  CatalogueEntry(
      String code,
      @Nullable Measure measure,
      List<MeasurementError> errors,
      List<ReferenceValue> references) {
    this.code = code;
    this.measure = measure;
    this.questionnaire = measure != null && measure.family().equals("questionnaire");
    this.errors = List.copyOf(errors);
    this.references = references.stream().filter(ReferenceValue::isAboutPeople).toList();
  }

  /** Code of the measure, also where the catalogue has no such measure. */
  public String code() {
    return code;
  }

  /**
   * The measure.
   *
   * @throws IllegalArgumentException if the catalogue has no such measure
   */
  public Measure measure() {
    if (measure == null) {
      throw new IllegalArgumentException("measure " + code + " is not known");
    }
    return measure;
  }

  /** True for the score of a questionnaire. */
  public boolean isQuestionnaire() {
    return questionnaire;
  }

  /** What was published about one number in other people, those of another sex left out. */
  public List<ReferenceValue> context(Aspect aspect, Protocol protocol, Sex person) {
    if (references.isEmpty()) {
      return references;
    }
    List<ReferenceValue> suiting = new ArrayList<>();
    for (ReferenceValue value : references) {
      if (value.suits(aspect, protocol, person)) {
        suiting.add(value);
      }
    }
    return suiting;
  }

  /**
   * The published error of one number for this way of testing: that of scores joined in the same
   * way, else one whose study does not say, else one of scores joined in another way, which the
   * error names; null if there is none.
   */
  public @Nullable MeasurementError errorOf(
      Aspect aspect, Protocol protocol, Aggregation aggregation) {
    MeasurementError nearest = null;
    for (MeasurementError error : errors) {
      if (error.describes(aspect, protocol)) {
        if (error.aggregation() == aggregation) {
          return error;
        }
        if (nearest == null || (nearest.aggregation() != null && error.aggregation() == null)) {
          nearest = error;
        }
      }
    }
    return nearest;
  }

  /** The published error of what was measured; null if there is none for that way of testing. */
  public @Nullable MeasurementError errorOf(Measured measured) {
    return errors.isEmpty()
        ? null
        : errorOf(measured.aspect(), measured.protocol(), measured.aggregation());
  }

  @Override
  public String toString() {
    return code;
  }
}

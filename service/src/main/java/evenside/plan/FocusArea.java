package evenside.plan;

import java.util.List;
import java.util.Set;

/**
 * What to work on for a group of measures.
 *
 * @param code code
 * @param title in the trade's words
 * @param measures codes of the measures it is for
 * @param exercises what trains it, from the catalogue
 * @param testWithTherapist true if its tests need a therapist
 * @param retestWeeks usual weeks between two tests
 * @param note what a reader must know
 * @param mark how the entry is known
 */
public record FocusArea(
    String code,
    String title,
    Set<String> measures,
    List<Exercise> exercises,
    boolean testWithTherapist,
    int retestWeeks,
    String note,
    String mark) {
  public FocusArea {
    measures = Set.copyOf(measures);
    exercises = List.copyOf(exercises);
  }
}

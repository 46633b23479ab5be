package evenside.plan;

import evenside.knee.KneeCase;
import java.time.LocalDate;
import java.util.Set;

/**
 * What a graft, a procedure or a surgeon's limit changes in a plan.
 *
 * @param code code
 * @param grafts grafts that call for it
 * @param procedures concomitant procedures that call for it
 * @param limits surgeon's limits that call for it
 * @param areas focus areas it is shown with
 * @param exercises exercises it touches
 * @param tests measures that are not tested while it holds
 * @param withholds true if the exercises are held back, false if they are only remarked on
 * @param text in words
 * @param mark how the entry is known
 */
public record Modifier(
    String code,
    Set<String> grafts,
    Set<String> procedures,
    Set<String> limits,
    Set<String> areas,
    Set<String> exercises,
    Set<String> tests,
    boolean withholds,
    String text,
    String mark) {
  public Modifier {
    grafts = Set.copyOf(grafts);
    procedures = Set.copyOf(procedures);
    limits = Set.copyOf(limits);
    areas = Set.copyOf(areas);
    exercises = Set.copyOf(exercises);
    tests = Set.copyOf(tests);
  }

  /** True if it concerns the case on this day. */
  public boolean concerns(KneeCase kneeCase, LocalDate day) {
    return grafts.contains(kneeCase.graft())
        || procedures.stream().anyMatch(kneeCase.concomitant()::contains)
        || kneeCase.surgeonLimits().stream()
            .anyMatch(limit -> limits.contains(limit.limit()) && limit.holdsOn(day));
  }
}

package evenside.plan;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The published mapping from measures to training, with what modifies it.
 *
 * @param areas focus areas
 * @param modifiers modifiers
 * @param phases phases of training in their order
 * @param phaseOf phase in which each milestone is usually worked towards, by code
 */
public record FocusAreas(
    List<FocusArea> areas,
    List<Modifier> modifiers,
    List<Phase> phases,
    Map<String, String> phaseOf) {
  /**
   * A phase of training; a custom, no gate.
   *
   * @param code code
   * @param title in the trade's words
   * @param usualTiming when it usually is
   */
  public record Phase(String code, String title, String usualTiming) {}

  public FocusAreas {
    phases = List.copyOf(phases);
    phaseOf = Map.copyOf(phaseOf);
    areas = List.copyOf(areas);
    modifiers = List.copyOf(modifiers);
  }

  /** The phase in which a milestone is usually worked towards. */
  public Optional<Phase> phase(String milestone) {
    String code = phaseOf.getOrDefault(milestone, "");
    return phases.stream().filter(phase -> phase.code().equals(code)).findFirst();
  }

  /** True if an exercise usually begins in a later phase than this. */
  public boolean isLater(Exercise exercise, Phase phase) {
    List<String> order = phases.stream().map(Phase::code).toList();
    return order.indexOf(exercise.phase()) > order.indexOf(phase.code());
  }

  /** The areas of a measure; empty where no training is published for it. */
  public List<FocusArea> of(String measure) {
    return areas.stream().filter(area -> area.measures().contains(measure)).toList();
  }
}

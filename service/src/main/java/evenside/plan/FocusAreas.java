package evenside.plan;

import java.util.List;

/**
 * The published mapping from measures to training, with what modifies it.
 *
 * @param areas focus areas
 * @param modifiers modifiers
 */
public record FocusAreas(List<FocusArea> areas, List<Modifier> modifiers) {
  public FocusAreas {
    areas = List.copyOf(areas);
    modifiers = List.copyOf(modifiers);
  }

  /** The areas of a measure; empty where no training is published for it. */
  public List<FocusArea> of(String measure) {
    return areas.stream().filter(area -> area.measures().contains(measure)).toList();
  }
}

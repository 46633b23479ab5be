package evenside.questionnaire;

import java.util.Map;

/**
 * How many answers each score needs.
 *
 * @param code of the rule, for example {@code koos-2012}
 * @param needed fewest answers by measure
 */
public record MissingRule(String code, Map<String, Integer> needed) {
  public MissingRule {
    needed = Map.copyOf(needed);
  }

  /**
   * Fewest answers for a score.
   *
   * @throws IllegalArgumentException if the rule says nothing about the measure
   */
  public int needed(String measure) {
    Integer answers = needed.get(measure);
    if (answers == null) {
      throw new IllegalArgumentException(code + " says nothing about " + measure);
    }
    return answers;
  }
}

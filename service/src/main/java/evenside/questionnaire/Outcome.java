package evenside.questionnaire;

import org.jspecify.annotations.Nullable;

/** What a sheet says about one score. */
public sealed interface Outcome {
  /** Code of the measure. */
  String measure();

  /**
   * There is a score.
   *
   * @param measure code of the measure
   * @param score at full precision
   * @param count how much was answered; null if only the score was reported
   */
  record Scored(String measure, double score, @Nullable Count count) implements Outcome {
    /** True if the score was sent and nothing could be checked. */
    public boolean reportedOnly() {
      return count == null;
    }
  }

  /**
   * Too little was answered: neither zero nor failed.
   *
   * @param measure code of the measure
   * @param count how much was answered
   */
  record NotScorable(String measure, Count count) implements Outcome {}

  /**
   * How much was answered.
   *
   * @param answered items with an answer
   * @param needed fewest answers for a score
   * @param items all items of the score
   */
  record Count(int answered, int needed, int items) {
    public boolean enough() {
      return answered >= needed;
    }

    @Override
    public String toString() {
      return answered + " of " + items + " answered, " + needed + " needed";
    }
  }
}

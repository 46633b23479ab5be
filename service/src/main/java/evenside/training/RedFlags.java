package evenside.training;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Answers to the warning questions.
 *
 * @param answers by code of the question; a code that is not in it was not asked
 * @param temperature body temperature in °C, or null
 */
public record RedFlags(Map<String, Answer> answers, @Nullable Double temperature) {
  public static final RedFlags NOT_ASKED = new RedFlags(Map.of(), null);

  public RedFlags {
    answers = Map.copyOf(answers);
  }

  public Answer answer(String question) {
    return answers.getOrDefault(question, Answer.UNKNOWN);
  }

  /** True if any question was answered with yes. */
  public boolean anyYes() {
    return answers.containsValue(Answer.YES);
  }

  /**
   * Both together: a yes stays a yes whatever else was answered, and a question answered in one is
   * answered.
   */
  public RedFlags and(RedFlags that) {
    Map<String, Answer> merged = new HashMap<>(answers);
    that.answers.forEach((question, answer) -> merged.merge(question, answer, RedFlags::merged));
    return new RedFlags(merged, Worse.of(temperature, that.temperature));
  }

  private static Answer merged(Answer a, Answer b) {
    if (a == Answer.UNKNOWN || b == Answer.UNKNOWN) {
      return a == Answer.UNKNOWN ? b : a;
    }
    return a.or(b);
  }
}

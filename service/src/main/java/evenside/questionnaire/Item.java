package evenside.questionnaire;

import java.util.Collections;
import java.util.List;

/**
 * One item of a questionnaire: a number, never its wording.
 *
 * @param number as the instrument numbers it, for example {@code 9a}
 * @param allowed the answers there are; at least two
 * @param reversed true if the printed number runs against the score
 */
public record Item(String number, List<Double> allowed, boolean reversed) {
  public Item {
    allowed = List.copyOf(allowed);
    if (allowed.size() < 2) {
      throw new IllegalArgumentException("item " + number + " allows " + allowed + ", no choice");
    }
  }

  public boolean allows(double answer) {
    return allowed.contains(answer);
  }

  public double least() {
    return Collections.min(allowed);
  }

  public double most() {
    return Collections.max(allowed);
  }

  /** What enters the score for an answer in the given coding; turning twice gives it back. */
  public double scored(double answer, Coding coding) {
    return reversed && coding == Coding.PRINTED ? least() + most() - answer : answer;
  }
}

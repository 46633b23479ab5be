package evenside.questionnaire;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A score as people write it: one decimal, halves up. For display and for checking a reported score
 * against the answers; the score itself is never rounded.
 */
public final class Shown {
  private Shown() {}

  public static BigDecimal oneDecimal(double score) {
    return BigDecimal.valueOf(score).setScale(1, RoundingMode.HALF_UP);
  }

  /** True if a reported score is the computed one, as far as one decimal tells. */
  public static boolean agree(double reported, double computed) {
    return oneDecimal(reported).compareTo(oneDecimal(computed)) == 0;
  }
}

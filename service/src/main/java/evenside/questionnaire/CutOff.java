package evenside.questionnaire;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * How a questionnaire score meets a published cut-off.
 *
 * <p>Shape: the score is rounded half up to the cut-off's decimals, at least one, and compared
 * then.
 *
 * <p>Why: a cut-off such as 75.9 is itself the rounded form of an attainable score (66 of 87 is
 * 75.862), so people exactly at it would fail unrounded.
 *
 * <p>Source: worked cases 66/87 and 75.9, 78/87 and 89.7, 460/6 and 76.7.
 *
 * <p>Differs: for a whole-number cut-off one decimal is kept, so that 89.7 does not pass for 90.
 */
public final class CutOff {
  private CutOff() {}

  public static double comparable(double score, double cutOff) {
    int places = Math.max(1, BigDecimal.valueOf(cutOff).stripTrailingZeros().scale());
    return BigDecimal.valueOf(score).setScale(places, RoundingMode.HALF_UP).doubleValue();
  }
}

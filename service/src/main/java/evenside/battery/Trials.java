package evenside.battery;

import evenside.measure.Aggregation;
import evenside.measure.Better;
import evenside.quantity.Decimals;
import evenside.quantity.Sum;
import java.util.Arrays;
import java.util.List;

/**
 * The score of a test from its trials.
 *
 * <p>Shape: best, mean, first or worst of the trials that count. Best and mean give different
 * symmetry from the same trials, so the way is kept with the score and never mixed.
 *
 * <p>Unit: that of the trials.
 *
 * <p>Not computable: no trial that counts; the best of a measure without a better direction.
 *
 * <p>Error: per measure and way of joining, from the catalogue.
 *
 * <p>Source: common practice, no single source; hop studies took the mean (Reid 2007, from memory;
 * Myers 2014, read) or the best (Gustavsson 2006, from memory).
 */
public final class Trials {
  private Trials() {}

  /**
   * The score of the trials that count.
   *
   * @param trials at least one counts
   * @throws IllegalArgumentException if no trial counts
   */
  public static double score(List<Trial> trials, Aggregation aggregation, Better better) {
    double[] valid = valid(trials);
    if (valid.length == 0) {
      throw new IllegalArgumentException("no trial counts among " + trials.size());
    }
    return switch (aggregation) {
      case MEAN -> Decimals.intermediate(Sum.of(valid) / valid.length);
      case SINGLE, FIRST -> valid[0];
      case BEST -> best(valid, better);
      case WORST -> best(valid, opposite(better));
    };
  }

  private static double[] valid(List<Trial> trials) {
    double[] valid = new double[trials.size()];
    int count = 0;
    for (Trial trial : trials) {
      Double value = trial.value();
      if (trial.counts() && value != null) {
        valid[count++] = value;
      }
    }
    return count == valid.length ? valid : Arrays.copyOf(valid, count);
  }

  private static Better opposite(Better better) {
    return switch (better) {
      case HIGHER -> Better.LOWER;
      case LOWER -> Better.HIGHER;
      case NEITHER -> Better.NEITHER;
    };
  }

  private static double best(double[] valid, Better better) {
    double best = valid[0];
    for (double one : valid) {
      best =
          switch (better) {
            case HIGHER -> Math.max(best, one);
            case LOWER -> Math.min(best, one);
            case NEITHER -> throw new IllegalArgumentException("neither direction is best");
          };
    }
    return best;
  }
}

package evenside.strength;

import evenside.quantity.Decimals;
import evenside.quantity.Sum;
import java.util.List;
import java.util.Optional;

/**
 * How alike the repetitions of one strength test are.
 *
 * <p>Shape: {@code 100 * sample SD / mean}, over the repetitions that count.
 *
 * <p>Unit: percent.
 *
 * <p>Not computable: fewer than two repetitions, or a mean of zero.
 *
 * <p>Error: not applicable.
 *
 * <p>Source: classes of Mau-Moeller (2017), Clin J Sport Med, doi 10.1097/JSM.0000000000000493:
 * below 10 % high, 10 to 20 % moderate, above 20 % low.
 *
 * <p>Differs: rehabilitation practice accepts up to 10 % at 60 deg/s and 15 % at high speed (from
 * memory). Shown with the result; no outcome depends on it.
 *
 * @param repetitions how many count
 * @param variation coefficient of variation, percent
 * @param grade class of the variation
 */
public record Consistency(int repetitions, double variation, Grade grade) {
  /** Classes of consistency. */
  public enum Grade {
    HIGH("high"),
    MODERATE("moderate"),
    LOW("low");

    private static final double HIGH_BELOW = 10;
    private static final double LOW_ABOVE = 20;

    private final String code;

    Grade(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }

    /** The class of a coefficient of variation in percent. */
    public static Grade of(double variation) {
      if (variation < HIGH_BELOW) {
        return HIGH;
      }
      return variation > LOW_ABOVE ? LOW : MODERATE;
    }
  }

  /** The consistency of the repetitions that count, or empty if they are too few. */
  public static Optional<Consistency> of(List<Double> repetitions) {
    int count = repetitions.size();
    if (count < 2) {
      return Optional.empty();
    }
    double mean = mean(repetitions);
    if (mean <= 0) {
      return Optional.empty();
    }
    Sum squares = new Sum();
    for (double one : repetitions) {
      squares.add((one - mean) * (one - mean));
    }
    double variation = Decimals.exact(100 * Math.sqrt(squares.total() / (count - 1)) / mean);
    return Optional.of(new Consistency(count, variation, Grade.of(variation)));
  }

  private static double mean(List<Double> repetitions) {
    Sum sum = new Sum();
    for (double one : repetitions) {
      sum.add(one);
    }
    return sum.total() / repetitions.size();
  }
}

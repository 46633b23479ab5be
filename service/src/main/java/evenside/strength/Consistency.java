package evenside.strength;

import evenside.quantity.Decimals;
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
    double mean = repetitions.stream().mapToDouble(Double::doubleValue).average().orElse(0);
    if (count < 2 || mean <= 0) {
      return Optional.empty();
    }
    double squares = repetitions.stream().mapToDouble(x -> (x - mean) * (x - mean)).sum();
    double variation = Decimals.exact(100 * Math.sqrt(squares / (count - 1)) / mean);
    return Optional.of(new Consistency(count, variation, Grade.of(variation)));
  }
}

package evenside.load;

import java.util.List;
import java.util.Optional;

/**
 * Load of the last 7 days against that of 28, one constant per published form. Descriptive only: no
 * zone, no risk, no part in any outcome.
 *
 * <p>Not computable: with a day not known among those it needs, or with a chronic load of 0.
 *
 * <p>Criticism: the coupled form correlates with its own denominator by arithmetic (Lolli 2017);
 * chronic loads replaced by fixed or random numbers kept the reported effect, and its critics ask
 * to dismiss the ratio (Impellizzeri 2021, Sports Med 51:581).
 */
public enum AcuteChronic {
  /** Mean of days t−6…t over mean of t−27…t. Source: Windt and Gabbett (2019), BJSM 53:988. */
  ROLLING_COUPLED("rolling-coupled") {
    @Override
    double acute(List<Double> days) {
      return mean(last(days, ACUTE));
    }

    @Override
    double chronic(List<Double> days) {
      return mean(days);
    }
  },
  /** Mean of days t−6…t over mean of t−27…t−7. Source: Windt and Gabbett (2019), BJSM 53:988. */
  ROLLING_UNCOUPLED("rolling-uncoupled") {
    @Override
    double acute(List<Double> days) {
      return mean(last(days, ACUTE));
    }

    @Override
    double chronic(List<Double> days) {
      return mean(days.subList(0, days.size() - ACUTE));
    }
  },
  /**
   * Exponentially weighted means, E = λL + (1 − λ)E before, λ = 2/(N + 1), begun with the load of
   * the first of the 28 days. Source: Williams et al. (2017), BJSM 51:209; the beginning
   * second-hand.
   */
  EXPONENTIAL("exponentially-weighted") {
    @Override
    double acute(List<Double> days) {
      return weighted(days, ACUTE);
    }

    @Override
    double chronic(List<Double> days) {
      return weighted(days, CHRONIC);
    }
  };

  static final int ACUTE = 7;
  static final int CHRONIC = 28;

  private final String code;

  AcuteChronic(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  abstract double acute(List<Double> days);

  abstract double chronic(List<Double> days);

  /**
   * Acute load, chronic load and their ratio.
   *
   * @param acute AU a day
   * @param chronic AU a day
   * @param ratio without unit
   */
  public record Result(Figure acute, Figure chronic, Figure ratio) {}

  /**
   * The three numbers.
   *
   * @param days load of the last 28 days in order; empty where it is not known
   * @throws IllegalArgumentException if there are not 28 days
   */
  public Result of(List<Optional<Double>> days) {
    if (days.size() != CHRONIC) {
      throw new IllegalArgumentException(days.size() + " days, not " + CHRONIC);
    }
    if (days.stream().anyMatch(Optional::isEmpty)) {
      Figure none = Figure.none(Figure.AU, Figure.UNKNOWN_DAYS);
      return new Result(none, none, Figure.none("1", Figure.UNKNOWN_DAYS));
    }
    List<Double> loads = days.stream().map(Optional::get).toList();
    double acute = acute(loads);
    double chronic = chronic(loads);
    Figure ratio =
        chronic == 0 ? Figure.none("1", Figure.ZERO_BEFORE) : Figure.of(acute / chronic, "1");
    return new Result(Figure.of(acute, Figure.AU), Figure.of(chronic, Figure.AU), ratio);
  }

  /**
   * Exponentially weighted mean after each day.
   *
   * @param days loads in order, at least one
   * @param span N of λ = 2/(N + 1)
   */
  static double weighted(List<Double> days, int span) {
    double lambda = 2.0 / (span + 1);
    double mean = days.get(0);
    for (double load : days.subList(1, days.size())) {
      mean = lambda * load + (1 - lambda) * mean;
    }
    return mean;
  }

  private static List<Double> last(List<Double> days, int count) {
    return days.subList(days.size() - count, days.size());
  }

  private static double mean(List<Double> days) {
    return days.stream().mapToDouble(d -> d).average().orElseThrow();
  }
}

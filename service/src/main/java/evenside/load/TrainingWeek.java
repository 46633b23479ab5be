package evenside.load;

import evenside.quantity.Decimals;
import java.util.List;
import java.util.Optional;

/**
 * Load, monotony and strain of seven days.
 *
 * <p>Shape: load = sum of the days; monotony = mean of the days / their standard deviation; strain
 * = load × monotony. A day's load is the sum of its sessions; a stated rest day is 0.
 *
 * <p>Unit: AU (effort 0 to 10 × minutes); monotony 1; strain AU.
 *
 * <p>Not computable: with a day that is not known; monotony and strain with all days alike.
 *
 * <p>Error: none published that we know.
 *
 * <p>Source: Foster et al. (2001), J Strength Cond Res 15:109; monotony and strain second-hand.
 *
 * <p>Differs: the kind of standard deviation is not printed, see {@link SdMethod}.
 *
 * @param load sum of the seven days
 * @param monotony mean over standard deviation
 * @param strain load times monotony
 * @param method kind of standard deviation
 */
public record TrainingWeek(Figure load, Figure monotony, Figure strain, SdMethod method) {
  private static final int DAYS = 7;

  /**
   * The week.
   *
   * @param days load of each day in order; empty where it is not known
   * @throws IllegalArgumentException if there are not seven days
   */
  public static TrainingWeek of(List<Optional<Double>> days, SdMethod method) {
    if (days.size() != DAYS) {
      throw new IllegalArgumentException(days.size() + " days are no week");
    }
    if (days.stream().anyMatch(Optional::isEmpty)) {
      return none(Figure.none(Figure.AU, Figure.INCOMPLETE_WEEK), Figure.INCOMPLETE_WEEK, method);
    }
    List<Double> loads = days.stream().map(Optional::get).toList();
    double total = loads.stream().mapToDouble(d -> d).sum();
    double sd = method.of(loads);
    // The mean of equal doubles may lie a rounding beside them.
    if (Decimals.exact(sd) == 0) {
      return none(Figure.of(total, Figure.AU), Figure.ZERO_VARIANCE, method);
    }
    double monotony = total / DAYS / sd;
    return new TrainingWeek(
        Figure.of(total, Figure.AU),
        Figure.of(monotony, "1"),
        Figure.of(total * monotony, Figure.AU),
        method);
  }

  private static TrainingWeek none(Figure load, String reason, SdMethod method) {
    return new TrainingWeek(load, Figure.none("1", reason), Figure.none(Figure.AU, reason), method);
  }

  /**
   * Change against the week before, in percent.
   *
   * <p>Not computable: with an incomplete week, or with nothing the week before.
   */
  public Figure changeFrom(TrainingWeek before) {
    Double now = load.value();
    Double then = before.load.value();
    if (now == null || then == null) {
      return Figure.none("%", Figure.INCOMPLETE_WEEK);
    }
    return then == 0
        ? Figure.none("%", Figure.ZERO_BEFORE)
        : Figure.of(100 * (now - then) / then, "%");
  }
}

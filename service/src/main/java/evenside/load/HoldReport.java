package evenside.load;

import evenside.knee.KneeCase;
import evenside.limb.LimbPair;
import evenside.limb.Side;
import evenside.measure.Better;
import evenside.quantity.Decimals;
import evenside.symmetry.LimbSymmetry;
import evenside.training.CoreHold;
import evenside.training.Exercise;
import evenside.training.Limb;
import evenside.training.Session;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * The longest hold of one core exercise in seven days, beside published means of healthy people.
 *
 * <p>Shape: distance from the mean in standard deviations, no percentile; sides by the limb
 * symmetry index.
 *
 * <p>Source: the norms are of the catalogue, each with its paper.
 *
 * @param exercise the exercise
 * @param longest longest hold by side, in s
 * @param symmetry index of the two sides in percent; empty without both
 * @param against the longest of all against each norm that fits the person
 */
public record HoldReport(
    Exercise exercise, Map<Limb, Double> longest, OptionalDouble symmetry, List<Against> against) {
  private static final int WEEK = 7;

  public HoldReport {
    longest = Map.copyOf(longest);
    against = List.copyOf(against);
  }

  /**
   * A hold against a norm.
   *
   * @param norm the norm
   * @param relativeToMean standard deviations above its mean
   */
  public record Against(Exercise.Norm norm, double relativeToMean) {}

  /** One report per core exercise of the seven days up to a day. */
  public static List<HoldReport> of(
      Collection<Session> trainings,
      LocalDate end,
      Function<String, Optional<Exercise>> exercises,
      KneeCase kneeCase) {
    Map<String, Map<Limb, Double>> holds = new TreeMap<>();
    for (Session session : trainings) {
      boolean recent =
          session.performedOn().isAfter(end.minusDays(WEEK)) && !session.performedOn().isAfter(end);
      session.training().stream()
          .filter(training -> recent)
          .flatMap(training -> training.core().stream())
          .forEach(core -> add(holds, core));
    }
    List<HoldReport> reports = new ArrayList<>();
    holds.forEach(
        (code, longest) ->
            exercises.apply(code).ifPresent(e -> reports.add(of(e, longest, kneeCase))));
    return reports;
  }

  private static void add(Map<String, Map<Limb, Double>> holds, CoreHold core) {
    double longest = core.holdSeconds().stream().mapToDouble(s -> s).max().orElse(0);
    holds
        .computeIfAbsent(core.exercise(), code -> new EnumMap<>(Limb.class))
        .merge(core.side(), longest, Math::max);
  }

  private static HoldReport of(Exercise exercise, Map<Limb, Double> longest, KneeCase kneeCase) {
    boolean left = kneeCase.operatedSide() == Side.LEFT;
    Double operated = longest.get(left ? Limb.LEFT : Limb.RIGHT);
    Double other = longest.get(left ? Limb.RIGHT : Limb.LEFT);
    OptionalDouble symmetry =
        operated == null || other == null
            ? OptionalDouble.empty()
            : LimbSymmetry.index(new LimbPair(operated, other), Better.HIGHER);
    double best = longest.values().stream().mapToDouble(s -> s).max().orElse(0);
    List<Against> against =
        exercise.norms().stream()
            .filter(norm -> norm.fits(kneeCase.sex()))
            .map(norm -> new Against(norm, Decimals.exact(norm.relativeToMean(best))))
            .toList();
    return new HoldReport(exercise, longest, symmetry, against);
  }
}

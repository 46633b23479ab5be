package evenside.assessment;

import evenside.battery.Result;
import evenside.limb.LimbPair;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Measure;
import evenside.measure.Measure.SymmetryRule;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Rescale;
import evenside.measure.Value;
import evenside.quantity.Decimals;
import evenside.symmetry.LimbSymmetry;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** Both legs, test by test. Only what was tested and joined in the same way is compared. */
final class Sides {
  private final List<Result> results;
  private final Collected collected;
  private final Uncertainty uncertainty;
  private final List<SideComparison> comparisons = new ArrayList<>();

  Sides(List<Result> results, Collected collected, MeasureCatalogue catalogue) {
    this.results = results;
    this.collected = collected;
    this.uncertainty = new Uncertainty(catalogue);
  }

  List<SideComparison> compare() {
    List<Result> operated = comparable(true);
    List<Result> other = comparable(false);
    for (Result mine : List.copyOf(operated)) {
      Result twin = twin(mine, other);
      if (twin != null) {
        operated.remove(mine);
        other.remove(twin);
        compare(mine, twin);
      }
    }
    for (Result mine : operated) {
      unpaired(
          mine,
          other,
          Gap.Reason.OTHER_SIDE_NOT_TESTED,
          "the other side was not tested in this battery; both count only from one");
    }
    for (Result their : other) {
      unpaired(
          their,
          operated,
          Gap.Reason.OPERATED_SIDE_NOT_TESTED,
          "the operated side was not tested in this battery; both count only from one");
    }
    return comparisons;
  }

  private static @Nullable Result twin(Result mine, List<Result> other) {
    for (Result their : other) {
      if (alike(mine, their)) {
        return their;
      }
    }
    return null;
  }

  private List<Result> comparable(boolean operated) {
    List<Result> comparable = new ArrayList<>();
    for (Result result : results) {
      if (result.measure().sided()
          && result.measure().symmetry() != SymmetryRule.NONE
          && collected.isOperated(result) == operated) {
        comparable.add(result);
      }
    }
    return comparable;
  }

  private static boolean alike(Result a, Result b) {
    return a.measure().code().equals(b.measure().code())
        && a.aggregation() == b.aggregation()
        && a.protocol().equals(b.protocol());
  }

  private void compare(Result mine, Result their) {
    Measure measure = mine.measure();
    LimbPair pair = new LimbPair(score(mine), score(their));
    if (measure.symmetry() == SymmetryRule.DIFFERENCE) {
      double difference = Decimals.exact(pair.operated() - pair.other());
      Value value = Value.Amount.of(difference, measure.unit());
      collected.compared(mine, their, Aspect.DIFFERENCE, value, null);
      comparisons.add(new SideComparison(mine, their, null, difference, null, null));
      return;
    }
    OptionalDouble index = LimbSymmetry.index(pair, measure.better());
    if (index.isEmpty()) {
      Gap gap = collected.gap(mine, Aspect.SYMMETRY, Gap.Reason.ZERO_VALUE, "a side scored zero");
      comparisons.add(new SideComparison(mine, their, null, null, null, gap));
      return;
    }
    double percent = index.getAsDouble();
    Rescale back = LimbSymmetry.rescale(pair.other(), measure.better(), measure.unit());
    collected.compared(mine, their, Aspect.SYMMETRY, Value.Amount.of(percent, "%"), back);
    @Nullable SymmetryInterval interval = uncertainty.of(mine, their, percent).orElse(null);
    comparisons.add(new SideComparison(mine, their, percent, null, interval, null));
  }

  /**
   * One leg without its like.
   *
   * @param across what the other leg has left without its like
   */
  private void unpaired(Result lone, List<Result> across, Gap.Reason absent, String detail) {
    Optional<Result> different =
        across.stream()
            .filter(result -> result.measure().code().equals(lone.measure().code()))
            .findFirst();
    Aspect aspect =
        lone.measure().symmetry() == SymmetryRule.RATIO ? Aspect.SYMMETRY : Aspect.DIFFERENCE;
    Gap gap =
        different.isEmpty()
            ? collected.gap(lone, aspect, absent, detail)
            : collected.gap(
                lone, aspect, Gap.Reason.TESTED_DIFFERENTLY, difference(lone, different.get()));
    boolean operated = collected.isOperated(lone);
    comparisons.add(
        new SideComparison(operated ? lone : null, operated ? null : lone, null, null, null, gap));
  }

  private static String difference(Result a, Result b) {
    String terms = a.protocol().differingFrom(b.protocol());
    return "the sides were tested differently: " + (terms.isEmpty() ? "aggregation" : terms);
  }

  private static double score(Result result) {
    return result.number().getAsDouble();
  }
}

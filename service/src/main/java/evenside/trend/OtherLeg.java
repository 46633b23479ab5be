package evenside.trend;

import evenside.limb.LimbPair;
import evenside.measure.Aspect;
import evenside.measure.Better;
import evenside.measure.MeasurementError;
import evenside.quantity.Decimals;
import evenside.symmetry.LimbSymmetry;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * The other leg's own course. Where it loses, symmetry gets better without the operated leg gaining
 * anything; so the operated leg is also held against what the other leg showed first.
 *
 * <p>Shape: against the newest test before surgery, or else the first after it.
 *
 * <p>Source: Wellsandt (2017), J Orthop Sports Phys Ther 47:334–338, for the value before surgery
 * as the yardstick; against the first value after surgery: own, by analogy.
 *
 * @param reference the test it is held against
 * @param then the other leg at the reference
 * @param now the other leg in the newest test of both legs
 * @param lost true if the other leg is worse than it was
 * @param change against the error of the test, or null where none is published that we know
 * @param symmetry percent, both legs now; empty if it cannot be computed
 * @param againstReference percent, operated leg now against the other leg then; empty likewise
 */
public record OtherLeg(
    Series.Test reference,
    double then,
    double now,
    boolean lost,
    @Nullable Change change,
    OptionalDouble symmetry,
    OptionalDouble againstReference) {

  /** The other leg's course; empty unless both legs were tested after a reference. */
  public static Optional<OtherLeg> of(Series series, @Nullable MeasurementError error) {
    Better better = series.measure().better();
    List<Series.Test> other = having(series, Aspect.OTHER);
    List<Series.Test> both =
        having(series, Aspect.OPERATED).stream()
            .filter(test -> test.weeks() > 0 && test.numbers().containsKey(Aspect.OTHER))
            .toList();
    if (both.isEmpty() || better == Better.NEITHER || series.graded()) {
      return Optional.empty();
    }
    Series.Test newest = both.get(both.size() - 1);
    Series.Test reference = reference(other);
    if (reference.equals(newest)) {
      return Optional.empty();
    }
    double then = number(reference, Aspect.OTHER);
    double now = number(newest, Aspect.OTHER);
    double operated = number(newest, Aspect.OPERATED);
    double gain = Decimals.exact(better == Better.LOWER ? then - now : now - then);
    return Optional.of(
        new OtherLeg(
            reference,
            then,
            now,
            gain < 0,
            error == null ? null : Change.between(then, now, error),
            LimbSymmetry.index(new LimbPair(operated, now), better),
            LimbSymmetry.index(new LimbPair(operated, then), better)));
  }

  private static Series.Test reference(List<Series.Test> other) {
    return other.stream()
        .filter(test -> test.weeks() <= 0)
        .reduce((earlier, later) -> later)
        .orElse(other.get(0));
  }

  private static List<Series.Test> having(Series series, Aspect aspect) {
    return series.tests().stream().filter(test -> test.numbers().containsKey(aspect)).toList();
  }

  private static double number(Series.Test test, Aspect aspect) {
    return java.util.Objects.requireNonNull(test.numbers().get(aspect));
  }
}

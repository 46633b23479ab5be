package evenside.symmetry;

import evenside.limb.LimbPair;
import evenside.measure.Better;
import evenside.measure.Rescale;
import evenside.quantity.Decimals;
import java.util.OptionalDouble;

/**
 * Limb symmetry index: the operated leg as a percentage of the other.
 *
 * <p>Shape: {@code 100 * operated / other}; {@code 100 * other / operated} where less is better, so
 * that above 100 always means the operated leg did better. May exceed 100; never capped, never
 * rounded.
 *
 * <p>Unit: both inputs in the same unit, from the same test on the same day; result in percent.
 *
 * <p>Not computable: the other leg scored zero or less, the operated leg less than zero; where less
 * is better, either scored zero or less.
 *
 * <p>Error: per measure, from the catalogue.
 *
 * <p>Source: Reid (2007), Phys Ther 87:337–349 (operated as a percentage of the non-operated leg);
 * inversion for times: common practice of the hop-test literature, from memory.
 *
 * <p>Differs: 200 − 100 × operated / other is also used for times and gives other numbers (89.5
 * against 90.5 for 2.21 s and 2.00 s); not used here.
 */
public final class LimbSymmetry {
  private LimbSymmetry() {}

  /** The index in percent, or empty if it is not computable. */
  public static OptionalDouble index(LimbPair pair, Better better) {
    double above = better == Better.LOWER ? pair.other() : pair.operated();
    double below = better == Better.LOWER ? pair.operated() : pair.other();
    if (below <= 0 || above < 0 || (better == Better.LOWER && above == 0)) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(Decimals.exact(100 * above / below));
  }

  /** What the operated leg would have to show for a given index, the other leg unchanged. */
  public static Rescale rescale(double other, Better better, String unit) {
    return better == Better.LOWER
        ? new Rescale(100 * other, true, unit)
        : new Rescale(other / 100, false, unit);
  }
}

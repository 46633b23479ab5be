package evenside.assessment;

import evenside.battery.Result;
import evenside.measure.Better;
import evenside.measure.Gap;
import evenside.measure.Measure;
import evenside.symmetry.SymmetryIndex;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * Both legs on one test of one battery. At least one leg is there.
 *
 * @param operatedLeg result of the operated leg, or null
 * @param otherLeg result of the other leg, or null
 * @param symmetry percent, or null if there is none
 * @param difference operated minus other in the unit of the measure, or null if the legs are
 *     compared as a ratio or not at all
 * @param interval how far the symmetry may be off, or null if nothing says so
 * @param gap why the legs were not compared, or null
 */
public record SideComparison(
    @Nullable Result operatedLeg,
    @Nullable Result otherLeg,
    @Nullable Double symmetry,
    @Nullable Double difference,
    @Nullable SymmetryInterval interval,
    @Nullable Gap gap) {

  /** The result of the operated leg, or the only one. */
  public Result first() {
    return Objects.requireNonNull(operatedLeg != null ? operatedLeg : otherLeg);
  }

  public Measure measure() {
    return first().measure();
  }

  /** JSON Pointer of the operated leg's result, or of the only one. */
  public String pointer() {
    return first().pointer();
  }

  /** Score of the operated leg, or empty. */
  public OptionalDouble operated() {
    return operatedLeg == null ? OptionalDouble.empty() : operatedLeg.number();
  }

  /** Score of the other leg, or empty. */
  public OptionalDouble other() {
    return otherLeg == null ? OptionalDouble.empty() : otherLeg.number();
  }

  /** Both legs for the other indices, where they are compared as a ratio. */
  public Optional<SymmetryIndex.Legs> legs() {
    if (symmetry == null || operatedLeg == null || otherLeg == null) {
      return Optional.empty();
    }
    boolean turn = measure().better() == Better.LOWER;
    Result small = turn ? otherLeg : operatedLeg;
    Result large = turn ? operatedLeg : otherLeg;
    return Optional.of(
        new SymmetryIndex.Legs(
            small.number().getAsDouble(),
            large.number().getAsDouble(),
            small.valid(),
            large.valid()));
  }
}

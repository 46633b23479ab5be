package evenside.criteria;

import evenside.knee.Sex;
import evenside.measure.Input;
import evenside.measure.Measured;
import evenside.measure.ReferenceValue;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A number held against its bound. Everything else follows from criterion and number.
 *
 * @param criterion what was asked
 * @param required false if shown for information only
 * @param truth met or not met
 * @param measured the number that counted
 * @param compared its value as it was compared
 * @param error the test's published error, or null if none fits
 * @param person sex, for what was published about other people
 * @param leftOpenBy why the other leg is no sound yardstick for it, or null
 */
record NumberFinding(
    NumberBound criterion,
    boolean required,
    Truth truth,
    Measured measured,
    double compared,
    @Nullable ErrorBand error,
    Sex person,
    @Nullable Reason leftOpenBy)
    implements Finding {

  @Override
  public Value value() {
    return measured.value();
  }

  @Override
  public Quantity margin() {
    return criterion.margin(compared);
  }

  @Override
  public @Nullable ToMeet toMeet() {
    return truth == Truth.MET ? null : criterion.toMeet(measured).leftOpenBy(leftOpenBy);
  }

  @Override
  public List<ReferenceValue> context() {
    return criterion.entry().context(criterion.aspect(), measured.protocol(), person);
  }

  @Override
  public List<Input> inputs() {
    return measured.inputs();
  }

  @Override
  public @Nullable Reason reason() {
    return truth == Truth.MET
        ? null
        : new Reason("short-of-bound", () -> criterion.shortBy(compared));
  }
}

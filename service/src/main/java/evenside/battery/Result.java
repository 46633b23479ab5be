package evenside.battery;

import evenside.limb.Side;
import evenside.measure.Aggregation;
import evenside.measure.Measure;
import evenside.measure.Protocol;
import evenside.measure.Value;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * One measure of one leg, or of the person where the test has no side.
 *
 * @param pointer JSON Pointer inside the battery
 * @param measure entry of the catalogue
 * @param side the leg, or null
 * @param protocol how it was tested
 * @param trials every attempt in order; empty where the measure has none
 * @param aggregation how the trials became the value
 * @param value the score, grade or fact
 */
public record Result(
    String pointer,
    Measure measure,
    @Nullable Side side,
    Protocol protocol,
    List<Trial> trials,
    Aggregation aggregation,
    Value value) {
  public Result {
    trials = List.copyOf(trials);
  }

  /** The numbers of the trials that count. */
  public List<Double> valid() {
    List<Double> valid = new ArrayList<>(trials.size());
    for (Trial trial : trials) {
      Double value = trial.value();
      if (trial.counts() && value != null) {
        valid.add(value);
      }
    }
    return valid;
  }

  /** The score, or empty if the value is no number. */
  public OptionalDouble number() {
    return value instanceof Value.Amount amount
        ? OptionalDouble.of(amount.quantity().value())
        : OptionalDouble.empty();
  }

  /** A result whose value is the score of its trials. */
  public static Result ofTrials(
      String pointer,
      Measure measure,
      @Nullable Side side,
      Protocol protocol,
      List<Trial> trials,
      Aggregation aggregation) {
    double score = Trials.score(trials, aggregation, measure.better());
    return new Result(
        pointer,
        measure,
        side,
        protocol,
        trials,
        aggregation,
        Value.Amount.of(score, measure.unit()));
  }

  /** A result with one value and no trials. */
  public static Result ofValue(
      String pointer, Measure measure, @Nullable Side side, Protocol protocol, Value value) {
    return new Result(pointer, measure, side, protocol, List.of(), Aggregation.SINGLE, value);
  }
}

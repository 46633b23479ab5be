package evenside.assessment;

import evenside.battery.Battery;
import evenside.battery.Result;
import evenside.limb.Side;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Input;
import evenside.measure.Measured;
import evenside.measure.Protocol;
import evenside.measure.Rescale;
import evenside.measure.Value;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What has been found in one battery so far, each with the day and the results behind it. */
final class Collected {
  private final Battery battery;
  private final Instant performedAt;
  private final Side operatedSide;
  private final List<Measured> measured = new ArrayList<>();
  private final List<Measured> workedOut = new ArrayList<>();
  private final List<Gap> gaps = new ArrayList<>();

  Collected(Battery battery, Side operatedSide) {
    this.battery = battery;
    this.performedAt = battery.performedAt().toInstant();
    this.operatedSide = operatedSide;
  }

  Side operatedSide() {
    return operatedSide;
  }

  List<Measured> measured() {
    return measured;
  }

  /** Those of the measured that nobody sent, both legs compared left aside. */
  List<Measured> workedOut() {
    return workedOut;
  }

  List<Gap> gaps() {
    return gaps;
  }

  boolean isOperated(Result result) {
    return result.side() == operatedSide;
  }

  void add(
      Result result, Aspect aspect, Value value, @Nullable Rescale rescale, boolean nobodySent) {
    Measured one =
        measured(result.measure().code(), aspect, value, result.protocol(), rescale, result);
    measured.add(one);
    if (nobodySent) {
      workedOut.add(one);
    }
  }

  /** What was found elsewhere. */
  void addAll(List<Measured> more, List<Gap> moreGaps) {
    measured.addAll(more);
    gaps.addAll(moreGaps);
  }

  /** A number made from two results of the same test. */
  void compared(Result mine, Result their, Aspect aspect, Value value, @Nullable Rescale rescale) {
    measured.add(
        measured(mine.measure().code(), aspect, value, mine.protocol(), rescale, mine, their));
  }

  /** A number of a measure of its own, made from two results. */
  void joined(
      String measure,
      Aspect aspect,
      Value value,
      Protocol protocol,
      Rescale rescale,
      Result first,
      Result second) {
    Measured one = measured(measure, aspect, value, protocol, rescale, first, second);
    measured.add(one);
    workedOut.add(one);
  }

  Gap gap(Result result, Aspect aspect, Gap.Reason reason, String detail) {
    return gap(result.measure().code(), aspect, reason, detail, result.protocol());
  }

  Gap gap(String measure, @Nullable Aspect aspect, Gap.Reason reason, String detail, Protocol how) {
    Gap gap = new Gap(measure, aspect, reason, detail, how, performedAt, battery.performedOn());
    gaps.add(gap);
    return gap;
  }

  private Measured measured(
      String measure,
      Aspect aspect,
      Value value,
      Protocol protocol,
      @Nullable Rescale rescale,
      Result... from) {
    Input[] inputs = new Input[from.length];
    for (int i = 0; i < from.length; i++) {
      inputs[i] = input(from[i]);
    }
    return new Measured(
        measure,
        aspect,
        value,
        protocol,
        performedAt,
        battery.performedOn(),
        List.of(inputs),
        rescale);
  }

  private Input input(Result result) {
    return new Input(
        battery.id(),
        result.pointer(),
        result.measure().code(),
        result.side(),
        isOperated(result),
        result.value(),
        result.protocol(),
        result.aggregation(),
        null,
        battery.performedOn());
  }
}

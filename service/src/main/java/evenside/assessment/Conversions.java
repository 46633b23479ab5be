package evenside.assessment;

import evenside.balance.YBalance;
import evenside.battery.Battery;
import evenside.battery.Result;
import evenside.battery.Trial;
import evenside.hop.ReactiveStrength;
import evenside.limb.Side;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Protocol;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import evenside.signs.HeelHeight;
import evenside.strength.Strength;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Results that nobody sent and that follow from those that were: torque from force and lever arm,
 * reactive strength from a drop jump, the balance composite, an angle from a heel height. Each
 * points at the result it was made from.
 */
final class Conversions {
  private static final Map<String, String> TORQUE_OF_FORCE =
      Map.of(
          "knee-extension-peak-force", "knee-extension-peak-torque",
          "knee-flexion-peak-force", "knee-flexion-peak-torque");

  private static final String DROP_JUMP = "drop-jump-height";
  private static final String ANTERIOR = "y-balance-anterior-reach";
  private static final String POSTEROMEDIAL = "y-balance-posteromedial-reach";
  private static final String POSTEROLATERAL = "y-balance-posterolateral-reach";
  private static final String HEEL_HEIGHT = "heel-height-difference";

  private final Battery battery;
  private final MeasureCatalogue catalogue;
  private final List<Result> made = new ArrayList<>();

  Conversions(Battery battery, MeasureCatalogue catalogue) {
    this.battery = battery;
    this.catalogue = catalogue;
  }

  List<Result> all() {
    for (Result result : battery.results()) {
      String code = result.measure().code();
      if (TORQUE_OF_FORCE.containsKey(code)) {
        torque(result, TORQUE_OF_FORCE.get(code));
      } else if (code.equals(DROP_JUMP)) {
        reactiveStrength(result);
      } else if (code.equals(ANTERIOR)) {
        composite(result);
      } else if (code.equals(HEEL_HEIGHT)) {
        angle(result);
      }
    }
    return made;
  }

  /** A force without its lever arm is no torque. */
  private void torque(Result force, String torque) {
    if (force.protocol().terms().get(Protocol.LEVER_ARM) instanceof Quantity leverArm) {
      converted(
          force,
          torque,
          force.protocol().without(Protocol.LEVER_ARM),
          trial -> times(trial.value(), leverArm.value()));
    }
  }

  private static @Nullable Double times(@Nullable Double force, double leverArm) {
    return force == null ? null : Strength.torque(force, leverArm);
  }

  private void reactiveStrength(Result jump) {
    converted(jump, "reactive-strength-index", jump.protocol(), Conversions::heightPerContact);
    converted(jump, "reactive-strength-ratio", jump.protocol(), Conversions::flightPerContact);
  }

  private static @Nullable Double heightPerContact(Trial jump) {
    return jump.value() == null || jump.contactTime() == null
        ? null
        : ReactiveStrength.index(jump.value(), jump.contactTime());
  }

  private static @Nullable Double flightPerContact(Trial jump) {
    return jump.flightTime() == null || jump.contactTime() == null
        ? null
        : ReactiveStrength.ratio(jump.flightTime(), jump.contactTime());
  }

  /** The composite stands where all three directions were tested in the same way. */
  private void composite(Result anterior) {
    Double length = battery.limbLength().get(anterior.side());
    Optional<Result> medial = alike(anterior, POSTEROMEDIAL);
    Optional<Result> lateral = alike(anterior, POSTEROLATERAL);
    if (length == null || medial.isEmpty() || lateral.isEmpty()) {
      return;
    }
    double percent =
        YBalance.composite(score(anterior), score(medial.get()), score(lateral.get()), length);
    single(anterior, "y-balance-composite", percent);
  }

  private Optional<Result> alike(Result reach, String direction) {
    return battery.results().stream()
        .filter(result -> result.measure().code().equals(direction))
        .filter(result -> result.side() == reach.side())
        .filter(result -> result.protocol().equals(reach.protocol()))
        .filter(result -> result.aggregation() == reach.aggregation())
        .findFirst();
  }

  private void angle(Result heel) {
    Double shank = battery.shankLength();
    if (shank != null) {
      HeelHeight.extensionLoss(score(heel), shank)
          .ifPresent(angle -> single(heel, "extension-deficit-from-heel-height", angle));
    }
  }

  private void single(Result from, String code, double number) {
    Measure measure = catalogue.get(code);
    Value value = Value.Amount.of(number, measure.unit());
    made.add(
        new Result(
            from.pointer(),
            measure,
            from.side(),
            from.protocol(),
            List.of(),
            from.aggregation(),
            value));
  }

  private void converted(
      Result from, String code, Protocol protocol, Function<Trial, @Nullable Double> number) {
    List<Trial> trials =
        from.trials().stream()
            .map(trial -> new Trial(number.apply(trial), trial.invalidReason()))
            .toList();
    if (trials.stream().anyMatch(Trial::counts)) {
      Side side = from.side();
      Measure measure = catalogue.get(code);
      made.add(
          Result.ofTrials(from.pointer(), measure, side, protocol, trials, from.aggregation()));
    }
  }

  private static double score(Result result) {
    return result.number().getAsDouble();
  }
}

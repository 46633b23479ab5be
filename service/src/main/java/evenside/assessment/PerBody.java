package evenside.assessment;

import evenside.balance.YBalance;
import evenside.battery.Battery;
import evenside.battery.Result;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Measure;
import evenside.measure.Rescale;
import evenside.measure.Value;
import evenside.quantity.Decimals;
import evenside.strength.Strength;

/**
 * A leg's number against the size of the body.
 *
 * <p>Shape: {@link Strength#perBodyMass}; {@link YBalance#perLimbLength}; {@code 100 * distance /
 * standing height} in percent.
 *
 * <p>Source: hop distance by height: PMC7872464 (Int J Sports Phys Ther 2021), read.
 */
final class PerBody {
  private final Battery battery;
  private final Collected collected;

  PerBody(Battery battery, Collected collected) {
    this.battery = battery;
    this.collected = collected;
  }

  void add(Result result) {
    Measure measure = result.measure();
    if (result.side() == null || result.number().isEmpty()) {
      return;
    }
    double number = result.number().getAsDouble();
    boolean operated = collected.isOperated(result);
    if (operated && measure.perMass()) {
      perMass(result, number);
    }
    if (operated && measure.perHeight()) {
      perHeight(result, number);
    }
    if (measure.perLimbLength()) {
      Aspect aspect = operated ? Aspect.OPERATED_PER_LIMB_LENGTH : Aspect.OTHER_PER_LIMB_LENGTH;
      perLimbLength(result, number, aspect);
    }
  }

  private void perMass(Result result, double torque) {
    Double mass = battery.bodyMass();
    if (mass == null) {
      String detail = "no body mass given";
      collected.gap(result, Aspect.OPERATED_PER_MASS, Gap.Reason.BODY_MASS_MISSING, detail);
      return;
    }
    Value value = Value.Amount.of(Strength.perBodyMass(torque, mass), "N.m/kg");
    Rescale back = new Rescale(mass, false, result.measure().unit());
    collected.add(result, Aspect.OPERATED_PER_MASS, value, back, true);
  }

  private void perHeight(Result result, double distance) {
    Double height = battery.height();
    if (height == null) {
      String detail = "no height given";
      collected.gap(result, Aspect.OPERATED_PER_HEIGHT, Gap.Reason.HEIGHT_MISSING, detail);
      return;
    }
    Value value = Value.Amount.of(Decimals.exact(100 * distance / height), "%");
    Rescale back = new Rescale(height / 100, false, result.measure().unit());
    collected.add(result, Aspect.OPERATED_PER_HEIGHT, value, back, true);
  }

  private void perLimbLength(Result result, double distance, Aspect aspect) {
    Double length = battery.limbLength().get(result.side());
    if (length == null) {
      if (aspect == Aspect.OPERATED_PER_LIMB_LENGTH) {
        collected.gap(result, aspect, Gap.Reason.LIMB_LENGTH_MISSING, "no limb length given");
      }
      return;
    }
    Value value = Value.Amount.of(YBalance.perLimbLength(distance, length), "%");
    Rescale back = new Rescale(length / 100, false, result.measure().unit());
    collected.add(result, aspect, value, back, true);
  }
}

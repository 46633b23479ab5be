package evenside.assessment;

import evenside.knee.KneeCase;
import evenside.limb.LimbPair;
import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.Gap;
import evenside.measure.Input;
import evenside.measure.Measure.SymmetryRule;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Measured;
import evenside.measure.Rescale;
import evenside.measure.Value;
import evenside.quantity.Decimals;
import evenside.symmetry.LimbSymmetry;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** Puts the batteries of a case together as evidence for one date. */
public final class EvidenceOf {
  private EvidenceOf() {}

  /**
   * Batteries after the date are left out; those from before surgery serve only as the other leg's
   * pre-operative value.
   */
  public static Evidence batteries(
      KneeCase kneeCase,
      List<AssessedBattery> batteries,
      LocalDate asOf,
      @Nullable Integer maxAgeDays,
      MeasureCatalogue catalogue) {
    List<Measured> measured = new ArrayList<>();
    List<Gap> gaps = new ArrayList<>();
    List<Measured> before = new ArrayList<>();
    for (AssessedBattery assessed : batteries) {
      LocalDate day = assessed.battery().performedOn();
      if (kneeCase.isBeforeSurgery(day)) {
        before.addAll(assessed.measured());
      } else if (!day.isAfter(asOf)) {
        measured.addAll(assessed.measured());
        gaps.addAll(assessed.gaps());
      }
    }
    for (Measured now : List.copyOf(measured)) {
      if (now.aspect() == Aspect.OPERATED && hasRatio(now, catalogue)) {
        preInjuryCapacity(now, before, catalogue, measured, gaps);
      }
    }
    return new Evidence(
        kneeCase.surgeryDate(),
        kneeCase.sex(),
        kneeCase.otherLeg(),
        asOf,
        maxAgeDays,
        measured,
        gaps);
  }

  private static boolean hasRatio(Measured measured, MeasureCatalogue catalogue) {
    return catalogue.get(measured.measure()).symmetry() == SymmetryRule.RATIO;
  }

  /**
   * Estimated pre-injury capacity: the operated leg now as a percentage of the other leg before
   * surgery.
   *
   * <p>Source: Wellsandt (2017), J Orthop Sports Phys Ther 47:334–338.
   */
  private static void preInjuryCapacity(
      Measured now,
      List<Measured> before,
      MeasureCatalogue catalogue,
      List<Measured> measured,
      List<Gap> gaps) {
    Measured yardstick = yardstick(now, before);
    if (yardstick == null) {
      gaps.add(
          gap(
              now,
              Gap.Reason.NO_PREOPERATIVE_VALUE,
              "no value of the other leg from before surgery"));
      return;
    }
    LimbPair pair = new LimbPair(number(now), number(yardstick));
    var better = catalogue.get(now.measure()).better();
    OptionalDouble index = LimbSymmetry.index(pair, better);
    if (index.isEmpty()) {
      gaps.add(gap(now, Gap.Reason.ZERO_VALUE, "a side scored zero"));
      return;
    }
    Rescale back = LimbSymmetry.rescale(pair.other(), better, catalogue.get(now.measure()).unit());
    List<Input> inputs = new ArrayList<>(now.inputs());
    inputs.addAll(yardstick.inputs());
    measured.add(
        new Measured(
            now.measure(),
            Aspect.PRE_INJURY_CAPACITY,
            Value.Amount.of(Decimals.exact(index.getAsDouble()), "%"),
            now.protocol(),
            now.performedAt(),
            now.performedOn(),
            inputs,
            back));
  }

  /** The newest value of the other leg from before surgery that was tested and joined alike. */
  private static @Nullable Measured yardstick(Measured now, List<Measured> before) {
    Measured newest = null;
    for (Measured then : before) {
      boolean alike =
          then.aspect() == Aspect.OTHER
              && then.measure().equals(now.measure())
              && then.aggregation() == now.aggregation()
              && then.protocol().equals(now.protocol());
      if (alike && (newest == null || then.performedAt().isAfter(newest.performedAt()))) {
        newest = then;
      }
    }
    return newest;
  }

  private static double number(Measured measured) {
    return ((Value.Amount) measured.value()).quantity().value();
  }

  private static Gap gap(Measured now, Gap.Reason reason, String detail) {
    return new Gap(
        now.measure(),
        Aspect.PRE_INJURY_CAPACITY,
        reason,
        detail,
        now.protocol(),
        now.performedAt(),
        now.performedOn());
  }
}

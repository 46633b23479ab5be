package evenside.assessment;

import evenside.battery.Battery;
import evenside.battery.NotPerformed;
import evenside.battery.Result;
import evenside.limb.LimbPair;
import evenside.limb.Side;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Input;
import evenside.measure.Measure;
import evenside.measure.Measure.SymmetryRule;
import evenside.measure.Measured;
import evenside.measure.Protocol;
import evenside.measure.Rescale;
import evenside.measure.Value;
import evenside.quantity.Decimals;
import evenside.strength.Strength;
import evenside.symmetry.LimbSymmetry;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * Everything that one battery gives by itself: both legs compared, values per body mass and height,
 * hamstring to quadriceps, and the gaps. Results from different ways of testing never meet in one
 * number; a battery is one day, so neither do days.
 */
public final class Assessor {
  private static final String EXTENSION = "knee-extension-peak-torque";
  private static final String FLEXION = "knee-flexion-peak-torque";
  private static final String CONCENTRIC = "isokinetic-concentric";

  private final Battery battery;
  private final Side operatedSide;
  private final Measure ratio;
  private final List<SideComparison> comparisons = new ArrayList<>();
  private final List<Measured> measured = new ArrayList<>();
  private final List<Gap> gaps = new ArrayList<>();

  private Assessor(Battery battery, Side operatedSide, Measure ratio) {
    this.battery = battery;
    this.operatedSide = operatedSide;
    this.ratio = ratio;
  }

  /**
   * Computes all that one battery gives.
   *
   * @param battery one day of tests
   * @param operatedSide side of the reconstructed knee
   * @param ratio the catalogue's entry of the hamstring to quadriceps ratio
   */
  public static AssessedBattery assess(Battery battery, Side operatedSide, Measure ratio) {
    Assessor assessor = new Assessor(battery, operatedSide, ratio);
    battery.results().forEach(assessor::single);
    assessor.compareSides();
    assessor.hamstringsToQuadriceps();
    Questionnaires questionnaires = Questionnaires.of(battery);
    assessor.measured.addAll(questionnaires.measured());
    assessor.gaps.addAll(questionnaires.gaps());
    battery.notPerformed().forEach(assessor::notPerformed);
    return new AssessedBattery(
        battery, assessor.comparisons, questionnaires.scores(), assessor.measured, assessor.gaps);
  }

  private void single(Result result) {
    if (!result.measure().sided()) {
      add(result, Aspect.VALUE, result.value(), null, input(result));
      return;
    }
    boolean operated = isOperated(result);
    Rescale asIs = operated ? new Rescale(1, false, result.measure().unit()) : null;
    add(result, operated ? Aspect.OPERATED : Aspect.OTHER, result.value(), asIs, input(result));
    if (operated) {
      perBody(result);
    }
  }

  private void perBody(Result result) {
    OptionalDouble number = number(result);
    if (number.isEmpty()) {
      return;
    }
    String unit = result.measure().unit();
    if (unit.equals("N.m")) {
      Double mass = battery.bodyMass();
      if (mass == null) {
        gap(result, Aspect.OPERATED_PER_MASS, Gap.Reason.BODY_MASS_MISSING, "no body mass given");
      } else {
        Value perMass = Value.Amount.of(Strength.perBodyMass(number.getAsDouble(), mass), "N.m/kg");
        Rescale back = new Rescale(mass, false, unit);
        add(result, Aspect.OPERATED_PER_MASS, perMass, back, input(result));
      }
    } else if (unit.equals("cm")) {
      Double height = battery.height();
      if (height == null) {
        gap(result, Aspect.OPERATED_PER_HEIGHT, Gap.Reason.HEIGHT_MISSING, "no height given");
      } else {
        Value perHeight = Value.Amount.of(Decimals.exact(100 * number.getAsDouble() / height), "%");
        Rescale back = new Rescale(height / 100, false, unit);
        add(result, Aspect.OPERATED_PER_HEIGHT, perHeight, back, input(result));
      }
    }
  }

  private void compareSides() {
    List<Result> operated = new ArrayList<>(comparable(true));
    List<Result> other = new ArrayList<>(comparable(false));
    for (Result mine : List.copyOf(operated)) {
      Optional<Result> twin = other.stream().filter(their -> alike(mine, their)).findFirst();
      if (twin.isPresent()) {
        operated.remove(mine);
        other.remove(twin.get());
        compare(mine, twin.get());
      }
    }
    for (Result mine : operated) {
      unpaired(mine, other, Gap.Reason.OTHER_SIDE_NOT_TESTED, "other side not tested");
    }
    for (Result their : other) {
      unpaired(their, operated, Gap.Reason.OPERATED_SIDE_NOT_TESTED, "operated side not tested");
    }
  }

  private List<Result> comparable(boolean operated) {
    return battery.results().stream()
        .filter(result -> result.measure().sided())
        .filter(result -> result.measure().symmetry() != SymmetryRule.NONE)
        .filter(result -> isOperated(result) == operated)
        .toList();
  }

  private static boolean alike(Result a, Result b) {
    return a.measure().code().equals(b.measure().code())
        && a.protocol().equals(b.protocol())
        && a.aggregation() == b.aggregation();
  }

  private void compare(Result mine, Result their) {
    Measure measure = mine.measure();
    LimbPair pair = new LimbPair(number(mine).getAsDouble(), number(their).getAsDouble());
    if (measure.symmetry() == SymmetryRule.DIFFERENCE) {
      Value difference =
          Value.Amount.of(Decimals.exact(pair.operated() - pair.other()), measure.unit());
      add(mine, Aspect.DIFFERENCE, difference, null, input(mine), input(their));
      comparisons.add(comparison(mine, pair, null, null));
      return;
    }
    OptionalDouble index = LimbSymmetry.index(pair, measure.better());
    if (index.isEmpty()) {
      Gap gap = gap(mine, Aspect.SYMMETRY, Gap.Reason.ZERO_VALUE, "a side scored zero");
      comparisons.add(comparison(mine, pair, null, gap));
      return;
    }
    Rescale back = LimbSymmetry.rescale(pair.other(), measure.better(), measure.unit());
    Value symmetry = Value.Amount.of(index.getAsDouble(), "%");
    add(mine, Aspect.SYMMETRY, symmetry, back, input(mine), input(their));
    comparisons.add(comparison(mine, pair, index.getAsDouble(), null));
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
            ? gap(lone, aspect, absent, detail)
            : gap(lone, aspect, Gap.Reason.TESTED_DIFFERENTLY, difference(lone, different.get()));
    Double score = number(lone).getAsDouble();
    boolean operated = isOperated(lone);
    comparisons.add(
        new SideComparison(
            lone.pointer(),
            lone.measure(),
            lone.protocol(),
            lone.aggregation(),
            operated ? score : null,
            operated ? null : score,
            null,
            gap));
  }

  private static String difference(Result a, Result b) {
    String terms = a.protocol().differingFrom(b.protocol());
    return "the sides were tested differently: " + (terms.isEmpty() ? "aggregation" : terms);
  }

  private void hamstringsToQuadriceps() {
    for (Result extension : battery.results()) {
      if (!isConcentric(extension, EXTENSION)) {
        continue;
      }
      battery.results().stream()
          .filter(flexion -> isConcentric(flexion, FLEXION))
          .filter(flexion -> flexion.side() == extension.side())
          .filter(flexion -> flexion.protocol().equals(extension.protocol()))
          .filter(flexion -> flexion.aggregation() == extension.aggregation())
          .forEach(flexion -> ratio(flexion, extension));
    }
  }

  private void ratio(Result flexion, Result extension) {
    double quadriceps = number(extension).getAsDouble();
    OptionalDouble percent =
        Strength.hamstringToQuadriceps(number(flexion).getAsDouble(), quadriceps);
    Aspect aspect = isOperated(extension) ? Aspect.OPERATED : Aspect.OTHER;
    if (percent.isEmpty()) {
      gaps.add(
          gap(
              ratio.code(),
              aspect,
              Gap.Reason.ZERO_VALUE,
              "extension is zero",
              extension.protocol()));
      return;
    }
    measured.add(
        new Measured(
            ratio.code(),
            aspect,
            Value.Amount.of(percent.getAsDouble(), ratio.unit()),
            extension.protocol(),
            battery.performedAt().toInstant(),
            battery.performedOn(),
            List.of(input(flexion), input(extension)),
            new Rescale(quadriceps / 100, false, "N.m")));
  }

  private static boolean isConcentric(Result result, String measure) {
    return result.measure().code().equals(measure)
        && CONCENTRIC.equals(result.protocol().terms().get(Protocol.MODE));
  }

  private void notPerformed(NotPerformed missing) {
    gaps.add(
        gap(
            missing.measure(),
            null,
            Gap.Reason.NOT_PERFORMED,
            "not performed: " + missing.reason(),
            Protocol.NONE));
  }

  private boolean isOperated(Result result) {
    return result.side() == operatedSide;
  }

  private static OptionalDouble number(Result result) {
    return result.value() instanceof Value.Amount number
        ? OptionalDouble.of(number.quantity().value())
        : OptionalDouble.empty();
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

  private void add(
      Result result, Aspect aspect, Value value, @Nullable Rescale rescale, Input... inputs) {
    measured.add(
        new Measured(
            result.measure().code(),
            aspect,
            value,
            result.protocol(),
            battery.performedAt().toInstant(),
            battery.performedOn(),
            List.of(inputs),
            rescale));
  }

  private Gap gap(Result result, Aspect aspect, Gap.Reason reason, String detail) {
    Gap gap = gap(result.measure().code(), aspect, reason, detail, result.protocol());
    gaps.add(gap);
    return gap;
  }

  private Gap gap(
      String measure, @Nullable Aspect aspect, Gap.Reason reason, String detail, Protocol how) {
    return new Gap(
        measure,
        aspect,
        reason,
        detail,
        how,
        battery.performedAt().toInstant(),
        battery.performedOn());
  }

  private static SideComparison comparison(
      Result mine, LimbPair pair, @Nullable Double symmetry, @Nullable Gap gap) {
    return new SideComparison(
        mine.pointer(),
        mine.measure(),
        mine.protocol(),
        mine.aggregation(),
        pair.operated(),
        pair.other(),
        symmetry,
        gap);
  }
}

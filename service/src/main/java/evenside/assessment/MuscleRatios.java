package evenside.assessment;

import evenside.battery.Result;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Protocol;
import evenside.measure.Rescale;
import evenside.measure.Value;
import evenside.strength.HamstringQuadriceps;
import evenside.strength.Strength;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** Every published hamstring to quadriceps ratio that the results of one leg make. */
final class MuscleRatios {
  private static final String EXTENSION = "knee-extension-peak-torque";
  private static final String FLEXION = "knee-flexion-peak-torque";
  private static final String CONCENTRIC = "isokinetic-concentric";
  private static final String ECCENTRIC = "isokinetic-eccentric";

  private final List<Result> results;
  private final Collected collected;
  private final MeasureCatalogue catalogue;

  MuscleRatios(List<Result> results, Collected collected, MeasureCatalogue catalogue) {
    this.results = results;
    this.collected = collected;
    this.catalogue = catalogue;
  }

  void add() {
    List<Result> flexions = new ArrayList<>();
    for (Result result : results) {
      if (is(result, FLEXION, CONCENTRIC) || is(result, FLEXION, ECCENTRIC)) {
        flexions.add(result);
      }
    }
    for (Result extension : results) {
      if (is(extension, EXTENSION, CONCENTRIC)) {
        for (Result flexion : flexions) {
          if (flexion.side() == extension.side()
              && flexion.aggregation() == extension.aggregation()
              && common(flexion).equals(common(extension))) {
            add(flexion, extension);
          }
        }
      }
    }
  }

  private void add(Result flexion, Result extension) {
    boolean eccentric = is(flexion, FLEXION, ECCENTRIC);
    for (HamstringQuadriceps definition : HamstringQuadriceps.values()) {
      if (definition.pairs(eccentric, speed(flexion), speed(extension))) {
        add(definition, flexion, extension);
      }
    }
  }

  private void add(HamstringQuadriceps definition, Result flexion, Result extension) {
    Measure ratio = catalogue.get(definition.measure());
    Protocol protocol = protocol(definition, extension);
    Aspect aspect = collected.isOperated(extension) ? Aspect.OPERATED : Aspect.OTHER;
    double quadriceps = extension.number().getAsDouble();
    OptionalDouble percent =
        Strength.hamstringToQuadriceps(flexion.number().getAsDouble(), quadriceps);
    if (percent.isEmpty()) {
      String detail = "extension is zero";
      collected.gap(ratio.code(), aspect, Gap.Reason.ZERO_VALUE, detail, protocol);
      return;
    }
    Value value = Value.Amount.of(percent.getAsDouble(), ratio.unit());
    Rescale back = new Rescale(quadriceps / 100, false, "N.m");
    collected.joined(ratio.code(), aspect, value, protocol, back, flexion, extension);
  }

  /** A ratio of two modes has no mode; one of two speeds has none either. */
  private static Protocol protocol(HamstringQuadriceps definition, Result extension) {
    return switch (definition) {
      case CONVENTIONAL -> extension.protocol();
      case FUNCTIONAL -> extension.protocol().without(Protocol.MODE);
      case MIXED -> common(extension);
    };
  }

  private static Protocol common(Result result) {
    return result.protocol().without(Protocol.MODE, Protocol.SPEED);
  }

  private static double speed(Result result) {
    return result.protocol().terms().get(Protocol.SPEED) instanceof Double speed
        ? speed
        : Double.NaN;
  }

  private static boolean is(Result result, String measure, String mode) {
    return result.measure().code().equals(measure)
        && mode.equals(result.protocol().terms().get(Protocol.MODE));
  }
}

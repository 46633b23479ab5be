package evenside.assessment;

import evenside.battery.Battery;
import evenside.battery.NotPerformed;
import evenside.battery.Result;
import evenside.limb.Side;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Protocol;
import evenside.measure.Rescale;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Everything that one battery gives by itself: what was sent, what is worked out from it, both legs
 * compared, values per body size, hamstring to quadriceps, and the gaps. Results from different
 * ways of testing never meet in one number; a battery is one day, so neither do days.
 */
public final class Assessor {
  private Assessor() {}

  /**
   * Computes all that one battery gives.
   *
   * @param battery one day of tests
   * @param operatedSide side of the reconstructed knee
   * @param catalogue the measures
   */
  public static AssessedBattery assess(
      Battery battery, Side operatedSide, MeasureCatalogue catalogue) {
    Collected collected = new Collected(battery, operatedSide);
    List<Result> results = new ArrayList<>(battery.results());
    results.forEach(result -> single(collected, result, false));
    List<Result> workedOut = new Conversions(battery, catalogue).all();
    workedOut.forEach(result -> single(collected, result, true));
    results.addAll(workedOut);
    PerBody perBody = new PerBody(battery, collected);
    results.forEach(perBody::add);
    List<SideComparison> comparisons = new Sides(results, collected, catalogue).compare();
    new MuscleRatios(results, collected, catalogue).add();
    Questionnaires questionnaires = Questionnaires.of(battery);
    collected.addAll(questionnaires.measured(), questionnaires.gaps());
    battery.notPerformed().forEach(missing -> notPerformed(collected, missing, catalogue));
    return new AssessedBattery(
        battery,
        comparisons,
        questionnaires.scores(),
        collected.measured(),
        collected.workedOut(),
        collected.gaps(),
        Repetitions.of(battery));
  }

  private static void single(Collected collected, Result result, boolean workedOut) {
    if (!result.measure().sided()) {
      collected.add(result, Aspect.VALUE, result.value(), null, workedOut);
    } else if (collected.isOperated(result)) {
      Rescale asIs = new Rescale(1, false, result.measure().unit());
      collected.add(result, Aspect.OPERATED, result.value(), asIs, workedOut);
    } else {
      collected.add(result, Aspect.OTHER, result.value(), null, workedOut);
    }
  }

  /**
   * Without the operated leg the whole measure is open. Without the other one its own number is,
   * and what compares both; how the operated leg was, an older test may still say.
   */
  private static void notPerformed(
      Collected collected, NotPerformed missing, MeasureCatalogue catalogue) {
    if (missing.side() == null || missing.side() == collected.operatedSide()) {
      notPerformed(collected, missing, (Aspect) null);
      return;
    }
    notPerformed(collected, missing, Aspect.OTHER);
    switch (catalogue.get(missing.measure()).symmetry()) {
      case RATIO -> notPerformed(collected, missing, Aspect.SYMMETRY);
      case DIFFERENCE -> notPerformed(collected, missing, Aspect.DIFFERENCE);
      case NONE -> {}
    }
  }

  private static void notPerformed(
      Collected collected, NotPerformed missing, @Nullable Aspect aspect) {
    collected.gap(
        missing.measure(),
        aspect,
        Gap.Reason.NOT_PERFORMED,
        "not performed: " + missing.reason(),
        Protocol.NONE);
  }
}

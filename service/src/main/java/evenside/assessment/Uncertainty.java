package evenside.assessment;

import evenside.battery.Result;
import evenside.measure.Aggregation;
import evenside.measure.Aspect;
import evenside.measure.Better;
import evenside.measure.MeasureCatalogue;
import evenside.measure.MeasurementError;
import evenside.quantity.Decimals;
import evenside.quantity.StudentT;
import evenside.quantity.Sum;
import evenside.symmetry.Interval;
import evenside.symmetry.RatioInterval;
import evenside.symmetry.RatioInterval.Estimate;
import java.util.List;
import java.util.Optional;

/**
 * Chooses the best grounded interval around a limb symmetry index: from the published error of the
 * index, else from that of the score, else from the trials of the day.
 */
final class Uncertainty {
  /** Unknown correlation of the two legs' errors: zero is the cautious choice. */
  private static final double RHO = 0;

  private static final double LEVEL = 0.95;

  private final MeasureCatalogue catalogue;

  Uncertainty(MeasureCatalogue catalogue) {
    this.catalogue = catalogue;
  }

  Optional<SymmetryInterval> of(Result mine, Result their, double symmetry) {
    String measure = mine.measure().code();
    Optional<SymmetryInterval> published =
        catalogue
            .errorOf(measure, Aspect.SYMMETRY, mine.protocol(), mine.aggregation())
            .map(error -> indexError(error, symmetry));
    if (published.isPresent()) {
      return published;
    }
    Optional<MeasurementError> score =
        catalogue.errorOf(measure, Aspect.OPERATED, mine.protocol(), mine.aggregation());
    return score.isPresent() ? scoreError(score.get(), mine, their) : trials(mine, their);
  }

  private static SymmetryInterval indexError(MeasurementError error, double symmetry) {
    double half = error.halfWidth(symmetry);
    Interval interval =
        new Interval.Bounded(Decimals.exact(symmetry - half), Decimals.exact(symmetry + half));
    return new SymmetryInterval(
        "published-error", SymmetryInterval.Basis.INDEX_ERROR, interval, error.z(), null, error);
  }

  private static Optional<SymmetryInterval> scoreError(
      MeasurementError error, Result mine, Result their) {
    Estimate operated = new Estimate(score(mine), error.semAt(score(mine)));
    Estimate other = new Estimate(score(their), error.semAt(score(their)));
    if (operated.value() <= 0 || other.value() <= 0) {
      return Optional.empty();
    }
    RatioInterval method = RatioInterval.LOG_DELTA;
    Interval interval = around(method, operated, other, mine, error.z());
    return Optional.of(
        new SymmetryInterval(
            method.code(), SymmetryInterval.Basis.SCORE_ERROR, interval, error.z(), RHO, error));
  }

  /**
   * Fieller's set from the pooled variance of the trials and Student's t. The error of a mean is
   * the trials' spread over the root of their number; a best or single score is given the spread of
   * one trial.
   *
   * <p>Source: for means {@link RatioInterval#FIELLER} with a pooled variance, as in its golden
   * cases; for a best score own choice, no source.
   */
  private static Optional<SymmetryInterval> trials(Result mine, Result their) {
    List<Double> operatedTrials = mine.valid();
    List<Double> otherTrials = their.valid();
    int freedom = operatedTrials.size() + otherTrials.size() - 2;
    if (operatedTrials.size() < 2 || otherTrials.size() < 2) {
      return Optional.empty();
    }
    double variance = (squares(operatedTrials) + squares(otherTrials)) / freedom;
    boolean mean = mine.aggregation() == Aggregation.MEAN;
    Estimate operated = estimate(score(mine), variance, mean ? operatedTrials.size() : 1);
    Estimate other = estimate(score(their), variance, mean ? otherTrials.size() : 1);
    double t = StudentT.twoSided(LEVEL, freedom);
    RatioInterval method = RatioInterval.FIELLER;
    Interval interval = around(method, operated, other, mine, t);
    return Optional.of(
        new SymmetryInterval(
            method.code(), SymmetryInterval.Basis.TRIALS, interval, Decimals.exact(t), RHO, null));
  }

  private static Estimate estimate(double score, double variance, int trials) {
    return new Estimate(score, Math.sqrt(variance / trials));
  }

  /** In percent, and turned round where less is better, as the index is. */
  private static Interval around(
      RatioInterval method, Estimate operated, Estimate other, Result test, double z) {
    boolean turned = test.measure().better() == Better.LOWER;
    Interval ratio =
        turned ? method.around(other, operated, RHO, z) : method.around(operated, other, RHO, z);
    return ratio instanceof Interval.Bounded bounded
        ? new Interval.Bounded(
            Decimals.exact(100 * bounded.low()), Decimals.exact(100 * bounded.high()))
        : ratio;
  }

  private static double squares(List<Double> trials) {
    Sum sum = new Sum();
    for (double one : trials) {
      sum.add(one);
    }
    double mean = sum.total() / trials.size();
    Sum squares = new Sum();
    for (double one : trials) {
      squares.add((one - mean) * (one - mean));
    }
    return squares.total();
  }

  private static double score(Result result) {
    return result.number().getAsDouble();
  }
}

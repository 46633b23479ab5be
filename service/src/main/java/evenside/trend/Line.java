package evenside.trend;

import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.regression.SimpleRegression;

/**
 * Ordinary least squares line through the readings of one series.
 *
 * <p>Shape: {@code value = intercept + slope * weeks}; s² = residual sum of squares / (n − 2).
 *
 * <p>Unit: slope in the series' unit per week.
 *
 * <p>Not computable: fewer than three readings, or all at the same time.
 *
 * <p>Error: from the scatter about the line. Readings of one person over months are not
 * independent, and recovery flattens, so the intervals are at best approximate.
 *
 * <p>Source: textbook formulas, computed by Hipparchus; held against the certified values of NIST
 * StRD "Norris".
 *
 * @param readings number of readings
 * @param first time of the first, weeks
 * @param last time of the last, weeks
 * @param intercept value at surgery
 * @param slope change per week
 * @param slopeError standard error of the slope
 * @param interceptError standard error of the intercept
 * @param residual standard deviation about the line, n − 2 degrees of freedom
 * @param explained share of the variation that the line explains, 0 to 1
 * @param meanWeeks mean time
 * @param spread sum of the squared distances from the mean time
 */
public record Line(
    int readings,
    double first,
    double last,
    double intercept,
    double slope,
    double slopeError,
    double interceptError,
    double residual,
    double explained,
    double meanWeeks,
    double spread) {
  private static final int FEWEST = 3;

  /**
   * Fits a line.
   *
   * @throws IllegalArgumentException if there are fewer than three readings, or all at one time
   */
  public static Line through(List<Reading> readings) {
    if (!fits(readings)) {
      throw new IllegalArgumentException(
          "a line needs " + FEWEST + " readings at two times or more, got " + readings.size());
    }
    SimpleRegression fit = new SimpleRegression();
    readings.forEach(reading -> fit.addData(reading.weeks(), reading.value()));
    double mean = readings.stream().mapToDouble(Reading::weeks).average().orElseThrow();
    return new Line(
        readings.size(),
        readings.stream().mapToDouble(Reading::weeks).min().orElseThrow(),
        readings.stream().mapToDouble(Reading::weeks).max().orElseThrow(),
        fit.getIntercept(),
        fit.getSlope(),
        fit.getSlopeStdErr(),
        fit.getInterceptStdErr(),
        Math.sqrt(fit.getMeanSquareError()),
        // Undefined for a level row of equal values; the level line explains all of no variation.
        Double.isNaN(fit.getRSquare()) ? 1 : fit.getRSquare(),
        mean,
        fit.getXSumSquares());
  }

  /** True if a line with a scatter about it can be fitted. */
  public static boolean fits(List<Reading> readings) {
    return readings.size() >= FEWEST
        && readings.stream().mapToDouble(Reading::weeks).distinct().count() > 1;
  }

  /** Value of the line at a time. */
  public double at(double weeks) {
    return intercept + slope * weeks;
  }

  /** Time from the first reading to the last, weeks. */
  public double span() {
    return last - first;
  }

  /** Student's t for a two-sided interval about this line. */
  public double t(double level) {
    return t(level, readings - 2);
  }

  static double t(double level, int degreesOfFreedom) {
    return new TDistribution(degreesOfFreedom).inverseCumulativeProbability((1 + level) / 2);
  }

  /**
   * Where the line itself may lie at a time.
   *
   * <p>Shape: fit ± t·s·√h, h = 1/n + (x − x̄)²/Sxx.
   */
  public Interval confidence(double weeks, double level) {
    return Interval.around(at(weeks), t(level) * residual * Math.sqrt(leverage(weeks)));
  }

  /**
   * Where one more reading may lie at a time.
   *
   * <p>Shape: fit ± t·s·√(1 + h).
   */
  public Interval prediction(double weeks, double level) {
    return Interval.around(at(weeks), t(level) * residual * Math.sqrt(1 + leverage(weeks)));
  }

  /** Where the slope may lie. */
  public Interval slope(double level) {
    return Interval.around(slope, t(level) * slopeError);
  }

  private double leverage(double weeks) {
    double away = weeks - meanWeeks;
    return 1.0 / readings + away * away / spread;
  }
}

package evenside.trend;

import java.util.List;

/**
 * Change per week over all readings where the error of a reading is known beforehand, so that even
 * three readings say something.
 *
 * <p>Shape: b = Σ(t − t̄)(y − ȳ)/Sxx; SE(b) = SEM/√Sxx; b ± z·SE(b).
 *
 * <p>Unit: the series' unit per week.
 *
 * <p>Error: assumes independent errors of the published size and a straight course.
 *
 * <p>Source: ordinary least squares with known error variance (textbook).
 *
 * @param perWeek change per week
 * @param standardError its standard error
 * @param z quantile of the interval
 */
public record Slope(double perWeek, double standardError, double z) {

  /**
   * The slope of a line whose readings err by a known amount.
   *
   * @param sem standard error of one reading, in the unit of the series
   */
  public static Slope knowing(double sem, double z, List<Reading> readings) {
    Line line = Line.through(readings);
    return new Slope(line.slope(), sem / Math.sqrt(line.spread()), z);
  }

  public Interval interval() {
    return Interval.around(perWeek, z * standardError);
  }

  /** True if the course is more than the error explains. */
  public boolean reliable() {
    return !interval().holds(0);
  }
}

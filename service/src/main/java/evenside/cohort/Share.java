package evenside.cohort;

import org.hipparchus.stat.interval.BinomialProportion;
import org.hipparchus.stat.interval.ConfidenceInterval;

/**
 * How many of how many, with an interval.
 *
 * <p>Shape: Wilson's score interval, which holds its level for few people and for shares near none
 * and all.
 *
 * <p>Unit: percent.
 *
 * <p>Source: Wilson (1927), J Am Stat Assoc 22:209–212; computed by Hipparchus.
 *
 * @param count those counted
 * @param of all of them, at least 1
 * @param percent share
 * @param low lower end of the interval
 * @param high upper end of the interval
 */
public record Share(int count, int of, double percent, double low, double high) {
  /** Level of every interval. */
  public static final double LEVEL = 0.95;

  /**
   * A share.
   *
   * @throws IllegalArgumentException if there is nobody, or more are counted than there are
   */
  public static Share of(int count, int of) {
    if (of < 1 || count < 0 || count > of) {
      throw new IllegalArgumentException("share " + count + " of " + of);
    }
    double proportion = (double) count / of;
    ConfidenceInterval wilson = BinomialProportion.getWilsonScoreInterval(of, proportion, LEVEL);
    return new Share(
        count,
        of,
        100 * proportion,
        100 * Math.max(0, wilson.getLowerBound()),
        100 * Math.min(1, wilson.getUpperBound()));
  }
}

package evenside.load;

/**
 * A published mean of hold times, for orientation. The spread is wide and skewed, so a distance
 * from the mean is never turned into a percentile.
 *
 * @param mean in s
 * @param sd standard deviation in s, above 0
 */
public record HoldNorm(double mean, double sd) {
  public HoldNorm {
    if (!(sd > 0)) {
      throw new IllegalArgumentException("standard deviation " + sd + " is not above 0");
    }
  }

  /** Standard deviations that a time lies above the mean. */
  public double relativeToMean(double seconds) {
    return (seconds - mean) / sd;
  }
}

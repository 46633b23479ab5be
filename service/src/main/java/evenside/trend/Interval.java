package evenside.trend;

/**
 * An interval, both ends included.
 *
 * @param low lower end
 * @param high upper end
 */
public record Interval(double low, double high) {
  public Interval {
    if (!(low <= high)) {
      throw new IllegalArgumentException("interval " + low + " to " + high + " is turned over");
    }
  }

  /** The interval this far to both sides of a value. */
  public static Interval around(double value, double half) {
    return new Interval(value - half, value + half);
  }

  public boolean holds(double value) {
    return low <= value && value <= high;
  }
}

package evenside.trend;

/**
 * One number at one time.
 *
 * @param weeks weeks since surgery, days divided by seven
 * @param value in the unit of its series
 */
public record Reading(double weeks, double value) {
  public Reading {
    if (!Double.isFinite(weeks) || !Double.isFinite(value)) {
      throw new IllegalArgumentException("reading " + weeks + ", " + value + " is not finite");
    }
  }
}

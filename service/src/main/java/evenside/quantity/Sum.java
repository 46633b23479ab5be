package evenside.quantity;

/**
 * Adds numbers and carries the rounding error of each step along, so that the order hardly matters.
 * Gives to the bit what {@link java.util.stream.DoubleStream#sum} gives for finite numbers, without
 * a stream for three trials.
 *
 * <p>Source: Kahan (1965), Further remarks on reducing truncation errors, Communications of the ACM
 * 8:40 (from memory).
 */
public final class Sum {
  private double sum;
  private double excess;

  /** Of a few numbers. */
  public static double of(double... numbers) {
    Sum sum = new Sum();
    for (double number : numbers) {
      sum.add(number);
    }
    return sum.total();
  }

  public void add(double number) {
    double corrected = number - excess;
    double more = sum + corrected;
    excess = (more - sum) - corrected;
    sum = more;
  }

  /** Zero if nothing was added. */
  public double total() {
    return sum - excess;
  }
}

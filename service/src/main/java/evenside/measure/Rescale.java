package evenside.measure;

/**
 * Turns a bound on a derived number back into the test's own unit: what the operated leg would have
 * to show for the derived number to sit at the bound, everything else unchanged.
 *
 * @param factor operated = factor × bound, or factor / bound if inverse
 * @param inverse true where less is better, so that a higher index means a smaller value
 * @param unit of the operated leg's value
 */
public record Rescale(double factor, boolean inverse, String unit) {
  public double operatedAt(double bound) {
    return inverse ? factor / bound : factor * bound;
  }
}

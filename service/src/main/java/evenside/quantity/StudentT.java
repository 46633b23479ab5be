package evenside.quantity;

/**
 * Student's t distribution for whole degrees of freedom.
 *
 * <p>Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 26.7.3 and 26.7.4:
 * the share between −t and t is a finite sum.
 */
public final class StudentT {
  /** Far beyond any quantile asked for: one degree of freedom at 99.9 % is 637. */
  private static final double LARGEST = 1e6;

  private StudentT() {}

  /**
   * The t between which and its negative a share of the distribution lies.
   *
   * @param level the share, between 0 and 1, at most 0.999
   * @param freedom degrees of freedom, at least 1
   */
  public static double twoSided(double level, int freedom) {
    if (!(level > 0 && level <= 0.999) || freedom < 1) {
      throw new IllegalArgumentException("level " + level + ", freedom " + freedom);
    }
    double low = 0;
    double high = LARGEST;
    // Halving a double's range of values ends after some sixty steps.
    while (true) {
      double middle = (low + high) / 2;
      if (middle == low || middle == high) {
        return middle;
      }
      if (share(middle, freedom) < level) {
        low = middle;
      } else {
        high = middle;
      }
    }
  }

  /** The share of the distribution between −t and t. */
  static double share(double t, int freedom) {
    double angle = Math.atan(t / Math.sqrt(freedom));
    double sine = Math.sin(angle);
    double cosine = Math.cos(angle);
    boolean odd = freedom % 2 == 1;
    double term = odd ? cosine : 1;
    double sum = freedom == 1 ? 0 : term;
    for (int k = odd ? 3 : 2; k < freedom; k += 2) {
      term *= cosine * cosine * (k - 1) / k;
      sum += term;
    }
    return odd ? 2 / Math.PI * (angle + sine * sum) : sine * sum;
  }
}

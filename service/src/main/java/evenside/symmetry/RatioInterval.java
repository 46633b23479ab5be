package evenside.symmetry;

/**
 * The published ways to an interval around the ratio of two uncertain numbers. At the precision of
 * hop tests the computed ones differ by less than 0.4 points; which one was used is named beside
 * every interval.
 */
public enum RatioInterval {
  /**
   * First-order propagation of error.
   *
   * <p>Shape: {@code r ± z * r * CV}, {@code CV² = (s1/x1)² + (s2/x2)² - 2 rho (s1/x1)(s2/x2)}.
   *
   * <p>Unit: a ratio, not a percentage.
   *
   * <p>Not computable: a value of zero.
   *
   * <p>Source: delta method, common practice of textbooks; check cases worked outside this project
   * at the precision of Ross (2002).
   *
   * <p>Differs: symmetric, so it may reach below zero where {@link #LOG_DELTA} does not.
   */
  DELTA("delta") {
    @Override
    public Interval around(Estimate top, Estimate bottom, double rho, double z) {
      double ratio = top.value() / bottom.value();
      double half = z * Math.abs(ratio) * variation(top, bottom, rho);
      return new Interval.Bounded(ratio - half, ratio + half);
    }
  },
  /**
   * The same on the scale of logarithms.
   *
   * <p>Shape: {@code r * exp(± z * CV)}.
   *
   * <p>Unit: a ratio, not a percentage.
   *
   * <p>Not computable: a value of zero or less.
   *
   * <p>Source: as {@link #DELTA}.
   *
   * <p>Differs: always above zero and skewed the right way.
   */
  LOG_DELTA("log-delta") {
    @Override
    public Interval around(Estimate top, Estimate bottom, double rho, double z) {
      double ratio = top.value() / bottom.value();
      double spread = Math.exp(z * variation(top, bottom, rho));
      return new Interval.Bounded(ratio / spread, ratio * spread);
    }
  },
  /**
   * Fieller's set.
   *
   * <p>Shape: {@code A = x2² - z² s2²}, {@code B = x1 x2 - z² rho s1 s2}, {@code C = x1² - z² s1²},
   * {@code D = B² - A C}; the limits are {@code (B ± sqrt D) / A} for A above zero.
   *
   * <p>Unit: a ratio, not a percentage.
   *
   * <p>Not computable: for A of zero or less there are no limits; then everything outside a
   * stretch, or every number, fits the data.
   *
   * <p>Source: Fieller (1954), J R Stat Soc B 16:175–185, formula read in NIST’s Dataplot reference
   * (ratio of means confidence interval) and in Franz (2007), arXiv 0710.2024.
   *
   * <p>Differs: the others give limits even where the denominator may be zero; this one says so.
   */
  FIELLER("fieller") {
    @Override
    public Interval around(Estimate top, Estimate bottom, double rho, double z) {
      double a = square(bottom.value()) - square(z * bottom.standardError());
      double joint = z * z * rho * top.standardError() * bottom.standardError();
      double b = top.value() * bottom.value() - joint;
      double c = square(top.value()) - square(z * top.standardError());
      double d = b * b - a * c;
      if (a <= 0) {
        return new Interval.Unbounded(d < 0 ? Interval.Kind.EVERYTHING : Interval.Kind.OUTSIDE);
      }
      double root = Math.sqrt(Math.max(d, 0));
      return new Interval.Bounded((b - root) / a, (b + root) / a);
    }
  };

  /**
   * A number with its standard error, in the same unit.
   *
   * @param value the number
   * @param standardError zero or above
   */
  public record Estimate(double value, double standardError) {
    public Estimate {
      if (!(standardError >= 0) || !Double.isFinite(value)) {
        throw new IllegalArgumentException(
            "estimate " + value + " with standard error " + standardError);
      }
    }
  }

  private final String code;

  RatioInterval(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /**
   * The interval around {@code top / bottom}.
   *
   * @param rho correlation of the two errors; 0 where unknown, which is the cautious choice
   * @param z quantile, of the normal distribution or of Student's t
   */
  public abstract Interval around(Estimate top, Estimate bottom, double rho, double z);

  private static double variation(Estimate top, Estimate bottom, double rho) {
    double first = top.standardError() / top.value();
    double second = bottom.standardError() / bottom.value();
    return Math.sqrt(Math.max(0, square(first) + square(second) - 2 * rho * first * second));
  }

  private static double square(double x) {
    return x * x;
  }
}

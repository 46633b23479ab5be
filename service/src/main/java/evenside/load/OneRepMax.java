package evenside.load;

/**
 * Estimates of the load that can be moved once, from a set to failure, one constant per published
 * formula. No dynamometer test; feeds no criterion.
 *
 * <p>Unit: the unit of the load. Not computable: above ten repetitions, from where accuracy falls.
 * One repetition is the load itself.
 */
public enum OneRepMax {
  /** w × (1 + r/30). Source: Epley, second-hand. */
  EPLEY("epley") {
    @Override
    double raw(double load, int repetitions) {
      return load * (1 + repetitions / 30.0);
    }
  },
  /** w × 36 / (37 − r). Source: Brzycki, second-hand. */
  BRZYCKI("brzycki") {
    @Override
    double raw(double load, int repetitions) {
      return load * 36 / (37 - repetitions);
    }
  };

  private static final int MOST_REPETITIONS = 10;

  private final String code;

  OneRepMax(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  abstract double raw(double load, int repetitions);

  /** The estimate in kg. */
  public Figure of(double loadKg, int repetitions) {
    if (repetitions < 1 || repetitions > MOST_REPETITIONS) {
      return Figure.none("kg", Figure.NOT_ESTIMABLE);
    }
    return Figure.of(repetitions == 1 ? loadKg : raw(loadKg, repetitions), "kg");
  }
}

package evenside.strength;

/**
 * The published hamstring to quadriceps ratios of one leg. They pair different muscle actions and
 * speeds and are never compared with each other; {@link Strength#hamstringToQuadriceps} is the
 * quotient of all.
 *
 * <p>Source: Kellis (2022), J Sport Health Sci, doi 10.1016/j.jshs.2022.01.002.
 */
public enum HamstringQuadriceps {
  /**
   * Concentric flexion over concentric extension, same speed.
   *
   * <p>Differs: rises with speed (.61, .72, .78 at 60, 180, 300 deg/s quoted as normal, PLoS One
   * 2012;7:e50979, second-hand), so a bound is for one speed.
   */
  CONVENTIONAL("hamstring-quadriceps-ratio"),
  /** Eccentric flexion over concentric extension, same speed. */
  FUNCTIONAL("functional-hamstring-quadriceps-ratio"),
  /** Eccentric flexion at 30 deg/s over concentric extension at 240 deg/s. */
  MIXED("mixed-hamstring-quadriceps-ratio");

  private static final double MIXED_FLEXION_SPEED = 30;
  private static final double MIXED_EXTENSION_SPEED = 240;

  private final String measure;

  HamstringQuadriceps(String measure) {
    this.measure = measure;
  }

  /** Code of the ratio in the catalogue. */
  public String measure() {
    return measure;
  }

  /** True if the flexion test, beside a concentric extension test, makes this ratio. */
  public boolean pairs(boolean eccentricFlexion, double flexionSpeed, double extensionSpeed) {
    return switch (this) {
      case CONVENTIONAL -> !eccentricFlexion && flexionSpeed == extensionSpeed;
      case FUNCTIONAL -> eccentricFlexion && flexionSpeed == extensionSpeed;
      case MIXED ->
          eccentricFlexion
              && flexionSpeed == MIXED_FLEXION_SPEED
              && extensionSpeed == MIXED_EXTENSION_SPEED;
    };
  }
}

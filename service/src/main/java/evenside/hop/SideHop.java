package evenside.hop;

/** The side hop counted over 30 s. */
public final class SideHop {
  private static final double MOST_ERRORS = 0.25;

  private SideHop() {}

  /**
   * True if more than a quarter of the hops were errors, so that a second attempt follows after
   * three minutes.
   *
   * <p>Source: Gustavsson (2006), Knee Surg Sports Traumatol Arthrosc 14:778–788, read second-hand.
   *
   * @param counted hops that count
   * @param errors hops that do not
   */
  public static boolean needsSecondAttempt(double counted, double errors) {
    return errors > MOST_ERRORS * (counted + errors);
  }
}

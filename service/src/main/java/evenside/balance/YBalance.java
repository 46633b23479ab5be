package evenside.balance;

import evenside.quantity.Decimals;

/** Reaches of the Y-balance test against the length of the leg stood on. */
public final class YBalance {
  private YBalance() {}

  /**
   * Composite of the three directions.
   *
   * <p>Shape: {@code 100 * (anterior + posteromedial + posterolateral) / (3 * limb length)}.
   *
   * <p>Unit: all in cm; result in percent.
   *
   * <p>Not computable: never, for a limb length above zero.
   *
   * <p>Error: published without a clear unit (7 for the mean of three), so none is given.
   *
   * <p>Source: Plisky (2006), J Orthop Sports Phys Ther 36:911–919; formula read in a public entry
   * of rehabilitation measures.
   *
   * <p>Differs: the best reach of each direction in the original, the mean of three in later work;
   * taken as the battery aggregates.
   *
   * @throws IllegalArgumentException if the limb length is not above zero
   */
  public static double composite(
      double anterior, double posteromedial, double posterolateral, double limbLength) {
    double sum = anterior + posteromedial + posterolateral;
    return perLimbLength(sum, 3 * limbLength);
  }

  /**
   * A distance per limb length.
   *
   * <p>Shape: {@code 100 * distance / limb length}.
   *
   * <p>Unit: both in cm; result in percent.
   *
   * <p>Not computable: never, for a limb length above zero.
   *
   * <p>Error: 2.21 to 2.94 % of limb length for a similar test, from memory.
   *
   * <p>Source: Gribble and Hertel (2003): raw reach differs by sex, reach per limb length does not.
   *
   * <p>Differs: hops are given by limb length or by standing height; the aspect says which.
   *
   * @throws IllegalArgumentException if the limb length is not above zero
   */
  public static double perLimbLength(double distance, double limbLength) {
    if (!(limbLength > 0)) {
      throw new IllegalArgumentException("limb length " + limbLength + " cm is not above zero");
    }
    return Decimals.exact(100 * distance / limbLength);
  }
}

package evenside.limb;

/**
 * One number per leg, in the same unit and from the same way of testing.
 *
 * @param operated of the reconstructed knee's leg
 * @param other of the other leg
 */
public record LimbPair(double operated, double other) {
  public LimbPair {
    if (!Double.isFinite(operated) || !Double.isFinite(other)) {
      throw new IllegalArgumentException("pair " + operated + ", " + other + " is not finite");
    }
  }
}

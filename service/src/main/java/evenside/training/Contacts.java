package evenside.training;

/**
 * Foot contacts. A landing on both feet together counts once.
 *
 * <p>Source: common counting of training sheets, read second-hand; some sheets count each leg, so
 * the three numbers are kept apart.
 *
 * @param both landings on both feet
 * @param left landings on the left foot alone
 * @param right landings on the right foot alone
 */
public record Contacts(int both, int left, int right) {
  public static final Contacts NONE = new Contacts(0, 0, 0);

  public int total() {
    return both + left + right;
  }

  public int single() {
    return left + right;
  }

  public Contacts plus(Contacts that) {
    return new Contacts(both + that.both, left + that.left, right + that.right);
  }
}

package evenside.merkle;

import java.util.ArrayList;
import java.util.List;

/**
 * Proves that a tree starts with all entries of a smaller one, in the same order.
 *
 * <p>Source: RFC 9162 section 2.1.4. A proof from the empty tree is refused: it would prove
 * nothing.
 */
public final class ConsistencyProof {
  private ConsistencyProof() {}

  /**
   * What the proof consists of: the hash of each span, in this order.
   *
   * @param from entries of the smaller tree, at least 1
   * @param to entries of the larger tree, at least as many
   * @throws IllegalArgumentException if the sizes are not so
   */
  public static List<Span> path(long from, long to) {
    if (from < 1 || from > to) {
      throw new IllegalArgumentException(
          "a consistency proof goes from at least 1 to no less, not " + from + " to " + to);
    }
    List<Span> path = new ArrayList<>();
    Span at = new Span(0, to);
    while (from < at.to()) {
      boolean goesLeft = from <= at.middle();
      path.add(0, goesLeft ? at.right() : at.left());
      at = goesLeft ? at.left() : at.right();
    }
    // A left edge that is a whole subtree of the smaller tree is that tree, which is known.
    if (at.from() != 0) {
      path.add(0, at);
    }
    return path;
  }

  /** Whether the proof shows that {@code larger} extends {@code smaller}. */
  public static boolean verifies(TreeHead smaller, TreeHead larger, List<Hash> proof) {
    if (smaller.size() < 1 || smaller.size() > larger.size()) {
      return false;
    }
    if (smaller.size() == larger.size()) {
      return proof.isEmpty() && smaller.equals(larger);
    }
    return !proof.isEmpty() && leadsToBoth(smaller, larger, proof);
  }

  private static boolean leadsToBoth(TreeHead smaller, TreeHead larger, List<Hash> proof) {
    List<Hash> path = new ArrayList<>(proof);
    if (Long.bitCount(smaller.size()) == 1) {
      path.add(0, smaller.root());
    }
    long fn = smaller.size() - 1;
    long sn = larger.size() - 1;
    while ((fn & 1) == 1) {
      fn >>= 1;
      sn >>= 1;
    }
    Hash fr = path.get(0);
    Hash sr = fr;
    for (Hash c : path.subList(1, path.size())) {
      if (sn == 0) {
        return false;
      }
      if ((fn & 1) == 1 || fn == sn) {
        fr = Hash.node(c, fr);
        sr = Hash.node(c, sr);
        while ((fn & 1) == 0 && fn != 0) {
          fn >>= 1;
          sn >>= 1;
        }
      } else {
        sr = Hash.node(sr, c);
      }
      fn >>= 1;
      sn >>= 1;
    }
    return sn == 0 && fr.equals(smaller.root()) && sr.equals(larger.root());
  }
}

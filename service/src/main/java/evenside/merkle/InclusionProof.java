package evenside.merkle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Proves that a tree holds an entry at an index.
 *
 * <p>Source: RFC 9162 section 2.1.3 (the same proofs as RFC 6962 section 2.1.1).
 */
public final class InclusionProof {
  private InclusionProof() {}

  /**
   * What the proof consists of: the hash of each span, in this order.
   *
   * @param index index of the entry
   * @param size number of entries of the tree
   * @throws IllegalArgumentException if the tree has no such entry
   */
  public static List<Span> path(long index, long size) {
    if (index < 0 || index >= size) {
      throw new IllegalArgumentException("a tree of " + size + " has no entry " + index);
    }
    List<Span> path = new ArrayList<>();
    Span at = new Span(0, size);
    while (at.size() > 1) {
      boolean goesLeft = index < at.middle();
      path.add(0, goesLeft ? at.right() : at.left());
      at = goesLeft ? at.left() : at.right();
    }
    return path;
  }

  /**
   * The root that the proof leads to; it proves something only if that is the root of a trusted
   * tree head of that size.
   *
   * @return the root; empty if no tree of that size has such a proof for such an index
   */
  public static Optional<Hash> root(Hash leaf, long index, long size, List<Hash> proof) {
    if (index < 0 || index >= size) {
      return Optional.empty();
    }
    long fn = index;
    long sn = size - 1;
    Hash root = leaf;
    for (Hash sibling : proof) {
      if (sn == 0) {
        return Optional.empty();
      }
      if ((fn & 1) == 1 || fn == sn) {
        root = Hash.node(sibling, root);
        while ((fn & 1) == 0 && fn != 0) {
          fn >>= 1;
          sn >>= 1;
        }
      } else {
        root = Hash.node(root, sibling);
      }
      fn >>= 1;
      sn >>= 1;
    }
    return sn == 0 ? Optional.of(root) : Optional.empty();
  }

  /** Whether the proof shows that the tree holds the entry at the index. */
  public static boolean verifies(Hash leaf, long index, List<Hash> proof, TreeHead head) {
    return root(leaf, index, head.size(), proof).equals(Optional.of(head.root()));
  }
}

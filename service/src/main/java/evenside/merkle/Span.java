package evenside.merkle;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/**
 * A run of entries that a proof stands for with one hash. It starts where a complete subtree of its
 * own size or larger starts, as all subtrees that RFC 6962 cuts do.
 *
 * @param from index of the first entry
 * @param to index after the last entry
 */
public record Span(long from, long to) {
  /** Checks that there is at least one entry. */
  public Span {
    if (from < 0 || to <= from) {
      throw new IllegalArgumentException("no entries from " + from + " to " + to);
    }
  }

  /**
   * The complete subtrees that make it up, from left to right, each smaller than the one before.
   */
  public List<Subtree> parts() {
    List<Subtree> parts = new ArrayList<>();
    long start = from;
    while (start < to) {
      int level = 63 - Long.numberOfLeadingZeros(to - start);
      parts.add(new Subtree(level, start >> level));
      start += 1L << level;
    }
    return parts;
  }

  /** Its hash, from those of its parts. */
  public Hash hash(Function<Subtree, Hash> nodes) {
    List<Subtree> parts = parts();
    Hash hash = nodes.apply(parts.get(parts.size() - 1));
    for (int i = parts.size() - 2; i >= 0; i--) {
      hash = Hash.node(nodes.apply(parts.get(i)), hash);
    }
    return hash;
  }

  long size() {
    return to - from;
  }

  /** Where RFC 6962 cuts it: after the largest power of two smaller than its size. */
  long middle() {
    return from + Long.highestOneBit(size() - 1);
  }

  Span left() {
    return new Span(from, middle());
  }

  Span right() {
    return new Span(middle(), to);
  }
}

package evenside.merkle;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The right edge of a tree: enough to append and to know the root, in space that grows with the
 * logarithm of the size. Not for several threads at once.
 */
public final class Frontier {
  private final @Nullable Hash[] peaks;
  private long size;

  private Frontier(@Nullable Hash[] peaks, long size) {
    this.peaks = peaks;
    this.size = size;
  }

  /** The edge of the tree without entries. */
  public static Frontier empty() {
    return new Frontier(new Hash[63], 0);
  }

  /**
   * The edge of a tree that is there.
   *
   * @param size its number of entries
   * @param nodes gives the hash of each of {@link #peaks(long)}
   */
  public static Frontier of(long size, Function<Subtree, Hash> nodes) {
    Frontier frontier = new Frontier(new Hash[63], size);
    peaks(size).forEach(peak -> frontier.peaks[peak.level()] = nodes.apply(peak));
    return frontier;
  }

  /** The complete subtrees that make up a tree of that size, from left to right. */
  public static List<Subtree> peaks(long size) {
    return size == 0 ? List.of() : new Span(0, size).parts();
  }

  /** A second edge that grows by itself. */
  public Frontier copy() {
    return new Frontier(peaks.clone(), size);
  }

  public long size() {
    return size;
  }

  /**
   * Appends an entry.
   *
   * @return the hashes of the complete subtrees that end with this entry: the entry itself, then
   *     one for each level it completes
   */
  public List<Hash> append(Hash leaf) {
    List<Hash> completed = new ArrayList<>();
    completed.add(leaf);
    Hash node = leaf;
    int level = 0;
    for (Hash left = peaks[0]; left != null; left = peaks[level]) {
      peaks[level] = null;
      node = Hash.node(left, node);
      completed.add(node);
      level++;
    }
    peaks[level] = node;
    size++;
    return completed;
  }

  /** The root of the tree as it is now. */
  public Hash root() {
    Hash root = null;
    for (Hash peak : peaks) {
      if (peak != null) {
        root = root == null ? peak : Hash.node(peak, root);
      }
    }
    return root == null ? Hash.EMPTY : root;
  }

  public TreeHead head() {
    return new TreeHead(size, root());
  }
}

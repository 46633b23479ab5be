package evenside.merkle;

/**
 * A tree in brief.
 *
 * @param size number of entries
 * @param root its root hash
 */
public record TreeHead(long size, Hash root) {
  /** Checks the size, and the root where the size alone fixes it. */
  public TreeHead {
    if (size < 0) {
      throw new IllegalArgumentException("a tree has no fewer than 0 entries, not " + size);
    }
    if (size == 0 && !root.equals(Hash.EMPTY)) {
      throw new IllegalArgumentException("the tree without entries has another root");
    }
  }
}

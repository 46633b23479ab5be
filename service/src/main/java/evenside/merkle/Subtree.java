package evenside.merkle;

/**
 * A complete subtree: 2<sup>level</sup> entries starting at {@code index} &times;
 * 2<sup>level</sup>. Once its last entry is there, its hash never changes.
 *
 * @param level 0 for a single entry
 * @param index how many subtrees of the same level lie before it
 */
public record Subtree(int level, long index) {
  /** Checks that the subtree can exist. */
  public Subtree {
    if (level < 0 || level > 62 || index < 0) {
      throw new IllegalArgumentException("no subtree at level " + level + ", index " + index);
    }
  }

  /** Index of the entry that completes it. */
  public long lastEntry() {
    return ((index + 1) << level) - 1;
  }
}

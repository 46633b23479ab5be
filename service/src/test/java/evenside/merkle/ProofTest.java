package evenside.merkle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Laws of the proofs, for every tree of 1 to 300 entries. */
class ProofTest {
  @Test
  void everyEntryAndEveryPairOfSizes_isProved() {
    EveryProof every = new EveryProof(300);
    for (int size = 1; size <= 300; size++) {
      every.inclusion(size, false);
      every.consistency(size, false);
    }
    assertThat(every.proofs()).isEqualTo(2 * 300 * 301 / 2);
  }

  @Test
  void everyBitTurned_isRefused() {
    EveryProof every = new EveryProof(300);
    for (int size : List.of(1, 2, 3, 4, 5, 6, 7, 8, 9, 13, 16, 17)) {
      every.inclusion(size, true);
      every.consistency(size, true);
    }
    assertThat(every.broken()).isGreaterThan(50_000);
  }

  /**
   * An index fixes which siblings stand left and right, so each other size either needs another
   * number of hashes or leads to another root; only sizes that give the very same path may pass.
   */
  @Test
  void anotherSize_isRefused_unlessThePathIsTheSame() {
    Tree tree = Tree.of(300);
    for (int size = 1; size <= 33; size++) {
      for (int index = 0; index < size; index++) {
        List<Hash> proof = tree.inclusion(index, size);
        for (int other = 1; other <= 70; other++) {
          TreeHead claimed = new TreeHead(other, tree.head(size).root());
          boolean samePath = index < other && sides(index, other).equals(sides(index, size));
          assertThat(InclusionProof.verifies(tree.leaf(index), index, proof, claimed))
              .as("entry %d of %d as of %d", index, size, other)
              .isEqualTo(samePath);
        }
      }
    }
  }

  private static List<Boolean> sides(long index, long size) {
    return InclusionProof.path(index, size).stream().map(span -> span.from() < index).toList();
  }

  @Test
  void proofFromTheEmptyTree_isRefused() {
    Tree tree = Tree.of(3);
    assertThat(ConsistencyProof.verifies(tree.head(0), tree.head(3), List.of())).isFalse();
    assertThatThrownBy(() -> ConsistencyProof.path(0, 3))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> InclusionProof.path(3, 3))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("a tree of 3 has no entry 3");
  }

  @Test
  void edgeReadBack_growsAsIfItHadNeverBeenAway() {
    Tree tree = Tree.of(100);
    for (int size = 0; size < 100; size++) {
      Frontier frontier = Frontier.of(size, tree::node);
      assertThat(frontier.head()).isEqualTo(tree.head(size));
      frontier.append(tree.leaf(size));
      assertThat(frontier.head()).isEqualTo(tree.head(size + 1));
    }
  }
}

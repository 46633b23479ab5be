package evenside.merkle;

import java.util.ArrayList;
import java.util.List;

/**
 * Makes every proof of every tree up to a size, and every proof with one bit turned.
 *
 * <p>All sizes to 300, which takes some minutes: {@code mvn -q -pl service -am test-compile
 * exec:exec@program -Dprogram=evenside.merkle.EveryProof -Dargs="300 300"}
 */
final class EveryProof {
  private final Tree tree;
  private long proofs;
  private long broken;

  EveryProof(int largest) {
    this.tree = Tree.of(largest);
  }

  /** Arguments: largest tree, largest tree whose proofs are broken bit by bit. */
  public static void main(String[] args) {
    int largest = Integer.parseInt(args[0]);
    int brokenUpTo = Integer.parseInt(args[1]);
    EveryProof every = new EveryProof(largest);
    for (int size = 1; size <= largest; size++) {
      every.inclusion(size, size <= brokenUpTo);
      every.consistency(size, size <= brokenUpTo);
    }
    System.out.println(every.proofs + " proofs hold; " + every.broken + " broken ones refused");
  }

  long proofs() {
    return proofs;
  }

  long broken() {
    return broken;
  }

  void inclusion(int size, boolean breakThem) {
    TreeHead head = tree.head(size);
    for (int index = 0; index < size; index++) {
      List<Hash> proof = tree.inclusion(index, size);
      Hash leaf = tree.leaf(index);
      demand(InclusionProof.verifies(leaf, index, proof, head), index, size);
      proofs++;
      if (breakThem) {
        breakInclusion(leaf, index, proof, head);
      }
    }
  }

  private void breakInclusion(Hash leaf, long index, List<Hash> proof, TreeHead head) {
    long size = head.size();
    for (int bit = 0; bit < 256; bit++) {
      TreeHead otherRoot = new TreeHead(size, flip(head.root(), bit));
      refuse(InclusionProof.verifies(flip(leaf, bit), index, proof, head), index, size);
      refuse(InclusionProof.verifies(leaf, index, proof, otherRoot), index, size);
      for (int i = 0; i < proof.size(); i++) {
        refuse(InclusionProof.verifies(leaf, index, flip(proof, i, bit), head), index, size);
      }
    }
    for (int bit = 0; bit < 64; bit++) {
      long otherIndex = index ^ 1L << bit;
      refuse(InclusionProof.verifies(leaf, otherIndex, proof, head), index, size);
    }
    refuse(InclusionProof.verifies(leaf, index, longer(proof), head), index, size);
    if (!proof.isEmpty()) {
      List<Hash> shorter = proof.subList(1, proof.size());
      refuse(InclusionProof.verifies(leaf, index, shorter, head), index, size);
    }
  }

  void consistency(int size, boolean breakThem) {
    TreeHead larger = tree.head(size);
    for (int from = 1; from <= size; from++) {
      List<Hash> proof = tree.consistency(from, size);
      TreeHead smaller = tree.head(from);
      demand(ConsistencyProof.verifies(smaller, larger, proof), from, size);
      proofs++;
      if (breakThem) {
        breakConsistency(smaller, larger, proof);
      }
    }
  }

  private void breakConsistency(TreeHead smaller, TreeHead larger, List<Hash> proof) {
    long from = smaller.size();
    long to = larger.size();
    for (int bit = 0; bit < 256; bit++) {
      TreeHead otherSmaller = new TreeHead(from, flip(smaller.root(), bit));
      TreeHead otherLarger = new TreeHead(to, flip(larger.root(), bit));
      refuse(ConsistencyProof.verifies(otherSmaller, larger, proof), from, to);
      refuse(ConsistencyProof.verifies(smaller, otherLarger, proof), from, to);
      for (int i = 0; i < proof.size(); i++) {
        refuse(ConsistencyProof.verifies(smaller, larger, flip(proof, i, bit)), from, to);
      }
    }
    refuse(ConsistencyProof.verifies(smaller, larger, longer(proof)), from, to);
    if (!proof.isEmpty()) {
      List<Hash> shorter = proof.subList(0, proof.size() - 1);
      refuse(ConsistencyProof.verifies(smaller, larger, shorter), from, to);
    }
  }

  private static void demand(boolean holds, long a, long b) {
    if (!holds) {
      throw new AssertionError("refused a true proof: " + a + ", " + b);
    }
  }

  private void refuse(boolean holds, long a, long b) {
    if (holds) {
      throw new AssertionError("accepted a broken proof: " + a + ", " + b);
    }
    broken++;
  }

  private static Hash flip(Hash hash, int bit) {
    byte[] bytes = hash.bytes();
    bytes[bit / 8] ^= (byte) (1 << bit % 8);
    return Hash.of(bytes);
  }

  private static List<Hash> flip(List<Hash> proof, int at, int bit) {
    List<Hash> other = new ArrayList<>(proof);
    other.set(at, flip(proof.get(at), bit));
    return other;
  }

  private static List<Hash> longer(List<Hash> proof) {
    List<Hash> other = new ArrayList<>(proof);
    other.add(Hash.EMPTY);
    return other;
  }
}

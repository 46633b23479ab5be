package evenside.merkle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** A whole tree in memory, to make proofs from. */
final class Tree {
  private final Map<Subtree, Hash> nodes = new HashMap<>();
  private final List<Hash> roots = new ArrayList<>();

  Tree(List<Hash> leaves) {
    Frontier frontier = Frontier.empty();
    roots.add(frontier.root());
    for (Hash leaf : leaves) {
      List<Hash> completed = frontier.append(leaf);
      long last = frontier.size() - 1;
      for (int level = 0; level < completed.size(); level++) {
        nodes.put(new Subtree(level, last >> level), completed.get(level));
      }
      roots.add(frontier.root());
    }
  }

  /** A tree with as many invented entries. */
  static Tree of(int size) {
    List<Hash> leaves = new ArrayList<>();
    for (int i = 0; i < size; i++) {
      leaves.add(Hash.leaf(new byte[] {(byte) i, (byte) (i >> 8)}));
    }
    return new Tree(leaves);
  }

  Hash node(Subtree subtree) {
    Hash hash = nodes.get(subtree);
    if (hash == null) {
      throw new AssertionError("not complete: " + subtree);
    }
    return hash;
  }

  Hash leaf(long index) {
    return node(new Subtree(0, index));
  }

  TreeHead head(int size) {
    return new TreeHead(size, roots.get(size));
  }

  List<Hash> inclusion(long index, long size) {
    return hashes(InclusionProof.path(index, size));
  }

  List<Hash> consistency(long from, long to) {
    return hashes(ConsistencyProof.path(from, to));
  }

  private List<Hash> hashes(List<Span> path) {
    return path.stream().map(span -> span.hash(this::node)).toList();
  }
}

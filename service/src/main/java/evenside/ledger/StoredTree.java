package evenside.ledger;

import evenside.merkle.Frontier;
import evenside.merkle.Hash;
import evenside.merkle.Span;
import evenside.merkle.Subtree;
import evenside.merkle.TreeHead;
import evenside.store.ledger.LedgerEntryRow;
import evenside.store.ledger.LedgerReading;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The hashes of a ledger's tree, read as far as a proof needs them: a few rows, in one query. */
final class StoredTree {
  private final LedgerReading reading;
  private final String clinic;
  private final int ledger;

  StoredTree(LedgerReading reading, String clinic, int ledger) {
    this.reading = reading;
    this.clinic = clinic;
    this.ledger = ledger;
  }

  /** The right edge of the tree of that size. */
  Frontier frontier(long size) {
    Map<Subtree, Hash> nodes = nodes(Frontier.peaks(size));
    return Frontier.of(size, nodes::get);
  }

  TreeHead head(long size) {
    return frontier(size).head();
  }

  /** The hashes of a proof. */
  List<Hash> hashes(List<Span> path) {
    List<Subtree> parts = new ArrayList<>();
    path.forEach(span -> parts.addAll(span.parts()));
    Map<Subtree, Hash> nodes = nodes(parts);
    return path.stream().map(span -> span.hash(nodes::get)).toList();
  }

  private Map<Subtree, Hash> nodes(List<Subtree> subtrees) {
    Set<Long> rows = new HashSet<>();
    subtrees.forEach(subtree -> rows.add(subtree.lastEntry()));
    Map<Long, LedgerEntryRow> entries = reading.entriesAt(clinic, ledger, rows);
    Map<Subtree, Hash> nodes = new HashMap<>();
    for (Subtree subtree : subtrees) {
      LedgerEntryRow row = entries.get(subtree.lastEntry());
      if (row == null) {
        throw new LedgerRefusal("the ledger has lost its entry " + subtree.lastEntry());
      }
      nodes.put(subtree, node(row, subtree.level()));
    }
    return nodes;
  }

  private static Hash node(LedgerEntryRow row, int level) {
    byte[] nodes = row.nodes();
    if (nodes.length < (level + 1) * Hash.LENGTH) {
      throw new LedgerRefusal("entry " + row.index() + " of the ledger lacks its hashes");
    }
    byte[] node = new byte[Hash.LENGTH];
    System.arraycopy(nodes, level * Hash.LENGTH, node, 0, Hash.LENGTH);
    return Hash.of(node);
  }

  /** How the hashes of the subtrees that an entry completes are kept in its row. */
  static byte[] joined(List<Hash> completed) {
    byte[] joined = new byte[completed.size() * Hash.LENGTH];
    for (int level = 0; level < completed.size(); level++) {
      byte[] hash = completed.get(level).bytes();
      System.arraycopy(hash, 0, joined, level * Hash.LENGTH, Hash.LENGTH);
    }
    return joined;
  }
}

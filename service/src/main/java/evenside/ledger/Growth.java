package evenside.ledger;

import evenside.merkle.Frontier;
import evenside.merkle.Hash;
import evenside.store.ledger.LedgerEntryRow;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

/** Entries that are being added to a ledger, not yet written; some may be taken back. */
final class Growth {
  private final long now;
  private final List<LedgerEntryRow> rows = new ArrayList<>();
  private final List<Hash> newCriteria = new ArrayList<>();
  private Frontier frontier;
  private long time;

  /**
   * Starts from the edge of the tree as it is.
   *
   * @param time time of the newest entry, Unix milliseconds
   * @param now time of the clock, which may be behind
   */
  Growth(Frontier frontier, long time, long now) {
    this.frontier = frontier.copy();
    this.time = time;
    this.now = now;
  }

  /** A place to come back to. */
  record Mark(Frontier frontier, long time, int rows, int criteria) {}

  Mark mark() {
    return new Mark(frontier.copy(), time, rows.size(), newCriteria.size());
  }

  void backTo(Mark mark) {
    frontier = mark.frontier();
    time = mark.time();
    rows.subList(mark.rows(), rows.size()).clear();
    newCriteria.subList(mark.criteria(), newCriteria.size()).clear();
  }

  /** Adds an entry and answers its index. */
  long add(NewEntry added) {
    time = Math.max(now, time);
    Entry entry = added.at(time);
    long index = frontier.size();
    List<Hash> completed = frontier.append(entry.hash());
    rows.add(
        new LedgerEntryRow(
            index, entry.bytes(), StoredTree.joined(completed), entry.id(), entry.refersTo()));
    added.criteriaDocument().ifPresent(document -> newCriteria.add(added.criteria()));
    return index;
  }

  boolean adds(UUID entryId) {
    return rows.stream().anyMatch(row -> row.entryId().equals(entryId));
  }

  boolean addsCriteria(Hash sha256) {
    return newCriteria.contains(sha256);
  }

  List<Hash> newCriteria() {
    return newCriteria;
  }

  List<LedgerEntryRow> rows() {
    return rows;
  }

  Frontier frontier() {
    return frontier;
  }

  long time() {
    return time;
  }
}

package evenside.ledger;

import evenside.merkle.Frontier;
import evenside.merkle.Hash;
import evenside.merkle.TreeHead;
import evenside.store.Store;
import evenside.store.ledger.LedgerEntryRow;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Consumer;

/**
 * Computes a ledger's tree again from nothing but the bytes of its entries, and compares what is
 * stored beside them. The first entry that does not fit ends it.
 */
final class Recount {
  private static final int PAGE = 10_000;

  private final Frontier frontier = Frontier.empty();
  private final TreeSet<Long> sizes;
  private final Map<Long, TreeHead> heads = new HashMap<>();
  private final Consumer<Entry> eachEntry;
  private Optional<Hash> lastHash = Optional.empty();
  private long time;

  private Recount(Collection<Long> sizes, Consumer<Entry> eachEntry) {
    this.sizes = new TreeSet<>(sizes);
    this.eachEntry = eachEntry;
  }

  /**
   * Recounts a ledger.
   *
   * @param sizes sizes whose heads are asked for later
   * @param eachEntry is given every entry in order
   * @throws LedgerRefusal naming the index of the first entry that does not fit
   */
  static Recount of(
      Store store, String clinic, int ledger, Collection<Long> sizes, Consumer<Entry> eachEntry) {
    Recount recount = new Recount(sizes, eachEntry);
    List<LedgerEntryRow> page;
    do {
      long from = recount.frontier.size();
      page = store.read(reading -> reading.ledger().entries(clinic, ledger, from, PAGE));
      page.forEach(recount::add);
    } while (page.size() == PAGE);
    return recount;
  }

  private void add(LedgerEntryRow row) {
    long index = frontier.size();
    demand(row.index() == index, index, "is missing");
    Entry entry = parse(row);
    demand(entry.recordedAt() >= time, index, "is older than the one before it");
    demand(
        entry.id().equals(row.entryId()) && entry.refersTo().equals(row.refersTo()),
        index,
        "is filed under another id than its own");
    Hash hash = Hash.leaf(row.entry());
    byte[] nodes = StoredTree.joined(frontier.append(hash));
    demand(Arrays.equals(nodes, row.nodes()), index, "does not have the hashes stored for it");
    time = entry.recordedAt();
    lastHash = Optional.of(hash);
    if (sizes.contains(frontier.size())) {
      heads.put(frontier.size(), frontier.head());
    }
    eachEntry.accept(entry);
  }

  private static Entry parse(LedgerEntryRow row) {
    try {
      return Entry.parse(row.entry());
    } catch (IllegalArgumentException damaged) {
      throw new LedgerRefusal(
          "entry " + row.index() + " was altered: " + damaged.getMessage(), damaged);
    }
  }

  private static void demand(boolean fits, long index, String fault) {
    if (!fits) {
      throw new LedgerRefusal("entry " + index + " was altered: it " + fault);
    }
  }

  /** The head at a size that was asked for; empty if the ledger has fewer entries. */
  Optional<TreeHead> head(long size) {
    return Optional.ofNullable(heads.get(size));
  }

  Frontier frontier() {
    return frontier;
  }

  /** Time of the newest entry, or 0. */
  long time() {
    return time;
  }

  Optional<Hash> lastHash() {
    return lastHash;
  }
}

package evenside.store.ledger;

import evenside.store.database.Instants;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** What a transaction can look up in the ledgers. Valid inside the transaction only. */
public sealed class LedgerReading permits LedgerWriting {
  private static final String LEDGERS = "select clinic, number, origin, started_at from ledger ";
  private static final String ROWS =
      "select entry_index, entry, nodes, entry_id, refers_to from ledger_entry";
  private static final String ENTRIES = ROWS + " where clinic = :clinic and ledger = :ledger";

  final Handle handle;

  /** Works in the transaction of the handle. */
  public LedgerReading(Handle handle) {
    this.handle = handle;
  }

  /** Every ledger of every clinic, older ones of a clinic first. */
  public List<LedgerRow> all() {
    return handle
        .createQuery(LEDGERS + "order by clinic, number")
        .map((row, context) -> ledger(row))
        .list();
  }

  /** The ledgers of a clinic, older ones first. */
  public List<LedgerRow> of(String clinic) {
    return handle
        .createQuery(LEDGERS + "where clinic = :clinic order by number")
        .bind("clinic", clinic)
        .map((row, context) -> ledger(row))
        .list();
  }

  /** Number of entries. */
  public long size(String clinic, int ledger) {
    return last(clinic, ledger).map(entry -> entry.index() + 1).orElse(0L);
  }

  /** The newest entry; empty where there is none. */
  public Optional<LedgerEntryRow> last(String clinic, int ledger) {
    // The fixed columns are named in the order too: only then does H2 see that the key has it.
    return query(
            ENTRIES + " order by clinic desc, ledger desc, entry_index desc limit 1",
            clinic,
            ledger)
        .map((row, context) -> entry(row))
        .findOne();
  }

  /**
   * Entries in order.
   *
   * @param from index of the first
   * @param limit most to give
   */
  public List<LedgerEntryRow> entries(String clinic, int ledger, long from, int limit) {
    return query(
            ENTRIES
                + " and entry_index >= :from_index order by clinic, ledger, entry_index"
                + " limit :limit",
            clinic,
            ledger)
        .bind("from_index", from)
        .bind("limit", limit)
        .setFetchSize(limit)
        .map((row, context) -> entry(row))
        .list();
  }

  /** The entries at some indexes, by index; those that are not there are left out. */
  public Map<Long, LedgerEntryRow> entriesAt(String clinic, int ledger, Collection<Long> indexes) {
    if (indexes.isEmpty()) {
      return Map.of();
    }
    List<Long> asked = List.copyOf(indexes);
    // The whole key is named for each: for "in" beside an equality H2 would read all entries.
    String keys =
        IntStream.range(0, asked.size())
            .mapToObj(i -> "(:clinic, :ledger, :at_" + i + ")")
            .collect(Collectors.joining(", ", "(", ")"));
    Query query = query(ROWS + " where (clinic, ledger, entry_index) in " + keys, clinic, ledger);
    for (int i = 0; i < asked.size(); i++) {
      query.bind("at_" + i, asked.get(i));
    }
    return query
        .map((row, context) -> entry(row))
        .collect(Collectors.toMap(LedgerEntryRow::index, entry -> entry));
  }

  /** Where the entry of a record is; empty where the ledger has none. */
  public Optional<LedgerPlace> place(String clinic, UUID entryId) {
    return places("entry_id = :id", clinic, entryId).stream().findFirst();
  }

  /** Where the entries are that are about a record, older ones first. */
  public List<LedgerPlace> about(String clinic, UUID recordId) {
    return places("refers_to = :id", clinic, recordId);
  }

  private List<LedgerPlace> places(String condition, String clinic, UUID id) {
    return handle
        .createQuery(
            "select ledger, entry_index, entry from ledger_entry where clinic = :clinic and "
                + condition
                + " order by ledger, entry_index")
        .bind("clinic", clinic)
        .bind("id", id)
        .map(
            (row, context) ->
                new LedgerPlace(
                    row.getInt("ledger"), row.getLong("entry_index"), row.getBytes("entry")))
        .list();
  }

  /** The signed checkpoint of the largest size; empty where nothing was signed yet. */
  public Optional<String> newestCheckpoint(String clinic, int ledger) {
    return checkpointQuery("order by clinic desc, ledger desc, tree_size desc", clinic, ledger, 0)
        .stream()
        .findFirst();
  }

  /** The signed checkpoint of the smallest size that is not less than the given one. */
  public Optional<String> checkpointFrom(String clinic, int ledger, long size) {
    return checkpointQuery("order by clinic, ledger, tree_size", clinic, ledger, size).stream()
        .findFirst();
  }

  private List<String> checkpointQuery(String order, String clinic, int ledger, long size) {
    return query(
            "select note from ledger_checkpoint where clinic = :clinic and ledger = :ledger"
                + " and tree_size >= :size "
                + order
                + " limit 1",
            clinic,
            ledger)
        .bind("size", size)
        .mapTo(String.class)
        .list();
  }

  /** Every key of a ledger, in the order they came. */
  public List<LedgerVerifierRow> verifiers(String clinic, int ledger) {
    return query(
            "select from_size, line from ledger_verifier"
                + " where clinic = :clinic and ledger = :ledger order by from_size",
            clinic,
            ledger)
        .map((row, context) -> new LedgerVerifierRow(row.getLong(1), row.getString(2)))
        .list();
  }

  /** The keys of all ledgers of a clinic, by number of the ledger, older ones first. */
  public SortedMap<Integer, List<LedgerVerifierRow>> verifiers(String clinic) {
    SortedMap<Integer, List<LedgerVerifierRow>> all = new TreeMap<>();
    handle
        .createQuery(
            "select ledger, from_size, line from ledger_verifier where clinic = :clinic"
                + " order by ledger, from_size")
        .bind("clinic", clinic)
        .map(
            (row, context) ->
                all.computeIfAbsent(row.getInt(1), any -> new ArrayList<>())
                    .add(new LedgerVerifierRow(row.getLong(2), row.getString(3))))
        .list();
    return all;
  }

  /** The salts of an entry; empty where it has none, or they were erased. */
  public Optional<StoredSalts> salts(String clinic, UUID entryId) {
    return handle
        .createQuery(
            "select document_salt, inputs_salt from ledger_salt"
                + " where clinic = :clinic and entry_id = :id")
        .bind("clinic", clinic)
        .bind("id", entryId)
        .map(
            (row, context) ->
                new StoredSalts(row.getBytes(1), Optional.ofNullable(row.getBytes(2))))
        .findOne();
  }

  /** A criteria set that decisions were made by. */
  public Optional<byte[]> criteria(String clinic, String sha256) {
    return handle
        .createQuery(
            "select document from ledger_criteria where clinic = :clinic and sha256 = :sha256")
        .bind("clinic", clinic)
        .bind("sha256", sha256)
        .mapTo(byte[].class)
        .findOne();
  }

  private Query query(String sql, String clinic, int ledger) {
    return handle.createQuery(sql).bind("clinic", clinic).bind("ledger", ledger);
  }

  private static LedgerRow ledger(ResultSet row) throws SQLException {
    return new LedgerRow(
        row.getString("clinic"),
        row.getInt("number"),
        row.getString("origin"),
        Instants.read(row, "started_at"));
  }

  private static LedgerEntryRow entry(ResultSet row) throws SQLException {
    return new LedgerEntryRow(
        row.getLong("entry_index"),
        row.getBytes("entry"),
        row.getBytes("nodes"),
        row.getObject("entry_id", UUID.class),
        Optional.ofNullable(row.getObject("refers_to", UUID.class)));
  }
}

package evenside.ledger;

import evenside.merkle.ConsistencyProof;
import evenside.merkle.Hash;
import evenside.merkle.InclusionProof;
import evenside.merkle.TreeHead;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.VerifierKey;
import evenside.store.Store;
import evenside.store.database.StoreException;
import evenside.store.ledger.LedgerEntryRow;
import evenside.store.ledger.LedgerPlace;
import evenside.store.ledger.LedgerReading;
import evenside.store.ledger.LedgerRow;
import evenside.store.ledger.LedgerVerifierRow;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * Looks up and proves a clinic's entries, in a number of reads that grows with the logarithm.
 *
 * <p>A checkpoint goes into the table a moment after its entries. What must be covered by one, and
 * is not yet, throws a {@link LedgerRefusal}, unless {@link Ledger#signed} is around it.
 */
public final class Proofs {
  /** Most entries given at once. */
  public static final int MOST_ENTRIES = 1000;

  private final Rows source;
  private final String clinic;

  private Proofs(Rows source, String clinic) {
    this.source = source;
    this.clinic = clinic;
  }

  /** How the rows are reached. */
  private interface Rows {
    <T> T ask(Function<LedgerReading, T> question);
  }

  /** Each question in a transaction of its own, and signed where it needs to be. */
  static Proofs of(Ledger ledger, Store store, String clinic) {
    return new Proofs(
        new Rows() {
          @Override
          public <T> T ask(Function<LedgerReading, T> question) {
            return ledger.signed(
                clinic, () -> store.read(reading -> question.apply(reading.ledger())));
          }
        },
        clinic);
  }

  /**
   * All questions in one transaction, so that all proofs are for one head. To be asked within
   * {@link Ledger#signed}, if for more than what entries say.
   */
  public static Proofs within(LedgerReading reading, String clinic) {
    return new Proofs(
        new Rows() {
          @Override
          public <T> T ask(Function<LedgerReading, T> question) {
            return question.apply(reading);
          }
        },
        clinic);
  }

  /**
   * An entry with all that proves it.
   *
   * @param ledger number of the clinic's ledger that has it
   * @param entry the 138 bytes, parsed
   * @param proof that it is in the ledger
   */
  public record Proved(int ledger, Entry entry, TlogProof proof) {}

  /**
   * A key as published.
   *
   * @param key the verifier key
   * @param fromSize signs from the checkpoint of this size on
   * @param toSize from this size on the next key signs; empty for the newest of a ledger
   * @param signs whether it signs now; the newest of a ledger that another goes on for does not
   */
  public record PublishedKey(
      VerifierKey key, long fromSize, Optional<Long> toSize, boolean signs) {}

  /**
   * The newest signed checkpoint; empty if nothing was signed yet. It covers every entry that was
   * there when it was asked for, unless the ledger cannot sign now.
   */
  public Optional<SignedNote> checkpoint() {
    AtomicLong there = new AtomicLong(-1);
    try {
      return inNewest(
          (reading, number) -> {
            Optional<SignedNote> note = checkpoint(reading, number);
            // Of the first look: while others append, the newest entry is never covered.
            there.compareAndSet(-1, reading.size(clinic, number));
            demandSigned(there.get(), note);
            return note;
          });
    } catch (StoreException cannotSign) {
      return inNewest(this::checkpoint);
    }
  }

  /** The entry of a record with its proof; empty if the ledger has none. */
  public Optional<Proved> proof(UUID recordId) {
    return proof(recordId, 0);
  }

  /**
   * The same for the head of a checkpoint that is at least as large as another, which its keeper
   * may hold before it is in the table.
   *
   * @param since size of the other; of no account if the ledger has fewer entries
   */
  public Optional<Proved> proof(UUID recordId, long since) {
    return source.ask(
        reading -> reading.place(clinic, recordId).flatMap(at -> prove(reading, at, since)));
  }

  /** The entries about a record, such as its erasure, with their proofs. */
  public List<Proved> about(UUID recordId) {
    return source.ask(
        reading ->
            reading.about(clinic, recordId).stream()
                .flatMap(at -> prove(reading, at, 0).stream())
                .toList());
  }

  /** Where a record is, with a checkpoint that covers it; empty if the ledger has none. */
  Optional<Receipt> receipt(UUID recordId) {
    return source.ask(
        reading ->
            reading
                .place(clinic, recordId)
                .flatMap(
                    at ->
                        covering(reading, at, 0)
                            .map(note -> new Receipt(at.index(), note.toText()))));
  }

  private Optional<Proved> prove(LedgerReading reading, LedgerPlace at, long since) {
    return covering(reading, at, since)
        .map(
            note ->
                new Proved(
                    at.ledger(),
                    Entry.parse(at.entry()),
                    new TlogProof(
                        at.index(),
                        new StoredTree(reading, clinic, at.ledger())
                            .hashes(InclusionProof.path(at.index(), head(note).size())),
                        note)));
  }

  /** Empty for what was added to a frozen ledger after its last checkpoint. */
  private Optional<SignedNote> covering(LedgerReading reading, LedgerPlace at, long since) {
    Optional<SignedNote> note = checkpoint(reading, at.ledger());
    boolean covers = signed(note) > at.index();
    boolean older = since > signed(note) && since <= reading.size(clinic, at.ledger());
    if (covers && !older) {
      return note;
    }
    if (newest(reading).filter(row -> row.number() != at.ledger()).isPresent()) {
      return note.filter(any -> covers);
    }
    throw new Unsigned();
  }

  private static void demandSigned(long size, Optional<SignedNote> note) {
    if (size > signed(note)) {
      throw new Unsigned();
    }
  }

  /**
   * Proof that the newest ledger of one size extends that of another.
   *
   * @return the hashes; empty if the sizes are not 0 &lt; from &le; to &le; the size of the ledger
   */
  public Optional<List<Hash>> consistency(long from, long to) {
    return inNewest((reading, number) -> consistency(reading, number, from, to));
  }

  /** The same for a ledger by its number. */
  public Optional<List<Hash>> consistency(int ledger, long from, long to) {
    return source.ask(reading -> consistency(reading, ledger, from, to));
  }

  private Optional<List<Hash>> consistency(LedgerReading reading, int ledger, long from, long to) {
    Optional<SignedNote> note = checkpoint(reading, ledger);
    if (from < 1 || from > to || (to > signed(note) && to > reading.size(clinic, ledger))) {
      return Optional.empty();
    }
    demandSigned(to, note);
    return Optional.of(
        new StoredTree(reading, clinic, ledger).hashes(ConsistencyProof.path(from, to)));
  }

  /** Whether the documents of a record were erased on purpose. */
  public boolean erased(UUID recordId) {
    return source.ask(
        reading ->
            reading.about(clinic, recordId).stream()
                .anyMatch(at -> Entry.parse(at.entry()).type() == EntryType.ERASURE));
  }

  /**
   * Entries, each after its length in two bytes (the form of C2SP tlog entry bundles).
   *
   * @param from index of the first
   * @param limit most to give, at most {@link #MOST_ENTRIES}
   */
  public byte[] entries(long from, int limit) {
    return inNewest(
            (rows, number) -> {
              ByteArrayOutputStream out = new ByteArrayOutputStream();
              int most = Math.min(limit, MOST_ENTRIES);
              for (LedgerEntryRow row : rows.entries(clinic, number, from, most)) {
                out.write(row.entry().length >> 8);
                out.write(row.entry().length);
                out.writeBytes(row.entry());
              }
              return Optional.of(out.toByteArray());
            })
        .orElse(new byte[0]);
  }

  /** Every key of every ledger of the clinic, ever. */
  public List<PublishedKey> keys() {
    return source.ask(
        reading -> {
          SortedMap<Integer, List<LedgerVerifierRow>> all = reading.verifiers(clinic);
          return all.entrySet().stream()
              .flatMap(
                  ledger -> published(ledger.getValue(), ledger.getKey().equals(all.lastKey())))
              .toList();
        });
  }

  private static Stream<PublishedKey> published(List<LedgerVerifierRow> rows, boolean newest) {
    List<PublishedKey> keys = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      Optional<Long> to =
          i + 1 < rows.size() ? Optional.of(rows.get(i + 1).fromSize()) : Optional.empty();
      VerifierKey key = VerifierKey.parse(rows.get(i).line());
      keys.add(new PublishedKey(key, rows.get(i).fromSize(), to, newest && to.isEmpty()));
    }
    return keys.stream();
  }

  private interface InLedger<T> {
    Optional<T> apply(LedgerReading rows, int number);
  }

  private <T> Optional<T> inNewest(InLedger<T> question) {
    return source.ask(
        reading -> newest(reading).flatMap(row -> question.apply(reading, row.number())));
  }

  private Optional<LedgerRow> newest(LedgerReading rows) {
    List<LedgerRow> all = rows.of(clinic);
    return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
  }

  private Optional<SignedNote> checkpoint(LedgerReading rows, int number) {
    return rows.newestCheckpoint(clinic, number).map(SignedNote::parse);
  }

  private static long signed(Optional<SignedNote> note) {
    return note.map(known -> head(known).size()).orElse(0L);
  }

  private static TreeHead head(SignedNote note) {
    return Checkpoint.parse(note.text()).head();
  }
}

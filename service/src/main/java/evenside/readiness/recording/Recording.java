package evenside.readiness.recording;

import evenside.document.Document;
import evenside.ledger.Appended;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerRefusal;
import evenside.ledger.NewEntry;
import evenside.ledger.Receipt;
import evenside.store.Reading;
import evenside.store.Remembered;
import evenside.store.Store;
import evenside.store.Writing;
import evenside.store.database.StoreConflict;
import java.time.InstantSource;
import java.util.Optional;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;

/**
 * The one way in which something is recorded: once for each idempotency key, on the case as it was
 * looked at, and with its entry in the ledger.
 */
public final class Recording {
  private final Store store;
  private final Ledger ledger;
  private final InstantSource clock;
  private final boolean grouping;
  private final Predicate<Writing> wanted;

  Recording(Store store, Ledger ledger, InstantSource clock) {
    this(store, ledger, clock, false, writing -> true);
  }

  private Recording(
      Store store,
      Ledger ledger,
      InstantSource clock,
      boolean grouping,
      Predicate<Writing> wanted) {
    this.store = store;
    this.ledger = ledger;
    this.clock = clock;
    this.grouping = grouping;
    this.wanted = wanted;
  }

  /** The same, for work of which much is in hand at once: see {@link #write}. */
  public Recording grouped() {
    return new Recording(store, ledger, clock, true, wanted);
  }

  /**
   * The same, for a line of a job: an erasure of its case removes lines that wait, and what was
   * taken into hand before must not bring anything back.
   */
  public Recording ofLine(String clinic, UUID job, int line) {
    return new Recording(
        store, ledger, clock, grouping, writing -> writing.jobs().holds(clinic, job, line));
  }

  /** What a request to record comes to. */
  public sealed interface Prepared permits Recorded, Draft, Earlier {}

  /**
   * A record to be made.
   *
   * @param kind what it is, as remembered with the idempotency key
   * @param made the answer if it is made
   * @param entry what the ledger says of it; empty for a record of which it says nothing
   * @param insert writes its rows
   * @param twin reads the record with the same identifier of the sender's, if that is what it met
   */
  public record Draft(
      String kind,
      Recorded made,
      Optional<Supplier<NewEntry>> entry,
      Consumer<Writing> insert,
      Function<Reading, Optional<Recorded>> twin)
      implements Prepared {}

  /** The same request came before. */
  private record Earlier(Remembered request) implements Prepared {}

  /**
   * Answers a request to record: in one transaction that reads, what came of it before or what is
   * to be written; then writes that. A request whose case is changed meanwhile is prepared again.
   *
   * @param find reads the record of an earlier request by clinic and id
   * @param prepare looks at what the record depends on
   */
  public Recorded record(
      String clinic,
      Optional<IdempotencyKey> key,
      BiFunction<String, String, Document> find,
      Function<Reading, Prepared> prepare) {
    return UnchangedCase.again(
        () -> {
          Prepared prepared = lookedAt(clinic, key, prepare);
          if (prepared instanceof Draft draft) {
            return write(clinic, key, find, draft);
          }
          store.settle();
          return prepared instanceof Earlier earlier
              ? replayed(clinic, key.orElseThrow(), earlier.request(), find)
              : (Recorded) prepared;
        });
  }

  private Prepared lookedAt(
      String clinic, Optional<IdempotencyKey> key, Function<Reading, Prepared> prepare) {
    try {
      return store.readAhead(
          reading ->
              key.flatMap(k -> reading.remembered(clinic, k.key()))
                  .<Prepared>map(Earlier::new)
                  .orElseGet(() -> prepare.apply(reading)));
    } catch (Refused refused) {
      // It tells of what was seen.
      store.settle();
      throw refused;
    }
  }

  /**
   * Writes a record, remembering the request first, so that of many equal requests at once one gets
   * through and the others are answered with its record.
   */
  private Recorded write(
      String clinic,
      Optional<IdempotencyKey> key,
      BiFunction<String, String, Document> find,
      Draft draft) {
    try {
      if (draft.entry().isEmpty() || !ledger.on()) {
        return write(clinic, writing -> insert(clinic, draft, key, writing));
      }
      NewEntry entry = draft.entry().get().get();
      Appended<Recorded> appended =
          ledger.append(
              clinic,
              appending -> {
                Recorded made =
                    demanded(appending.writing(), writing -> insert(clinic, draft, key, writing));
                appending.add(entry);
                return made;
              });
      return appended.result().with(appended.receipt());
    } catch (LedgerRefusal refusal) {
      throw Refused.because(Refusal.UNAVAILABLE, String.valueOf(refusal.getMessage()));
    } catch (StoreConflict conflict) {
      return switch (conflict.kind()) {
        case ALREADY_REMEMBERED -> earlier(clinic, key, find).orElseThrow(() -> conflict);
        case RECORD_ID_TAKEN, CRITERIA_SET_TAKEN ->
            store.read(draft.twin()).orElseThrow(() -> conflict);
        case BUSY ->
            throw key.isPresent()
                ? Refused.because(
                    Refusal.KEY_IN_FLIGHT,
                    "the first request with this key, or another on this case, is still running")
                : Refused.because(Refusal.UNAVAILABLE, "another request on this case takes long");
        case ROLLED_BACK, CASE_REVISION_TAKEN, LEDGER_TAKEN, CLIENT_KEY_TAKEN, JOB_TAKEN ->
            throw conflict;
        case BATTERY_REPLACED ->
            throw Refused.because(
                Refusal.CONFLICT,
                "the battery was corrected already; correct the one that took its place, which its"
                    + " corrections name");
      };
    }
  }

  /**
   * Runs a transaction that adds no entry to the ledger: by itself, or, where many are written at
   * once, in one with others, so that they share a commit and a sync of the disk.
   */
  public Recorded write(String clinic, Function<Writing, Recorded> work) {
    return grouping && ledger.on()
        ? ledger.append(clinic, appending -> demanded(appending.writing(), work)).result()
        : store.writeInTurn(writing -> demanded(writing, work));
  }

  /** Does the work, unless it is no longer wanted; that is asked last: the work holds its case. */
  private Recorded demanded(Writing writing, Function<Writing, Recorded> work) {
    Recorded made = work.apply(writing);
    if (!wanted.test(writing)) {
      throw Refused.because(
          Refusal.NOT_FOUND, "this line no longer waits: it was done, or its case was erased");
    }
    return made;
  }

  private Recorded insert(
      String clinic, Draft draft, Optional<IdempotencyKey> key, Writing writing) {
    key.ifPresent(k -> writing.remember(remembered(clinic, k, draft.kind(), draft.made().id())));
    draft.insert().accept(writing);
    return draft.made();
  }

  /** A request that is about to be answered by making a record. */
  public Remembered remembered(String clinic, IdempotencyKey key, String kind, String id) {
    return new Remembered(clinic, key.key(), key.fingerprint(), kind, id, Records.now(clock));
  }

  /** The answer to an earlier request with the same key; refused if that was another request. */
  public Optional<Recorded> earlier(
      String clinic, Optional<IdempotencyKey> key, BiFunction<String, String, Document> find) {
    return key.flatMap(
        k ->
            store
                .read(reading -> reading.remembered(clinic, k.key()))
                .map(remembered -> replayed(clinic, k, remembered, find)));
  }

  private Recorded replayed(
      String clinic,
      IdempotencyKey key,
      Remembered remembered,
      BiFunction<String, String, Document> find) {
    if (!remembered.fingerprint().equals(key.fingerprint())) {
      throw Refused.because(
          Refusal.KEY_REUSED, "this idempotency key was used for another request");
    }
    String id = remembered.recordId();
    Recorded replayed = new Recorded(id, find.apply(clinic, id), Recorded.Novelty.REPLAYED);
    return replayed.with(receipt(clinic, id));
  }

  /** Where the ledger has a record; empty if it has none, or is off. */
  public Optional<Receipt> receipt(String clinic, String id) {
    return Records.uuid(id).flatMap(known -> ledger.receipt(clinic, known));
  }
}

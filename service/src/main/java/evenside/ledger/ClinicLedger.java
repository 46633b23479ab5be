package evenside.ledger;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.merkle.ConsistencyProof;
import evenside.merkle.Frontier;
import evenside.merkle.Hash;
import evenside.merkle.TreeHead;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.SigningKey;
import evenside.store.Store;
import evenside.store.Writing;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreException;
import evenside.store.ledger.LedgerEntryRow;
import evenside.store.ledger.LedgerVerifierRow;
import evenside.store.ledger.LedgerWriting;
import java.time.InstantSource;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.LongAdder;
import java.util.function.BiPredicate;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One ledger, while it grows. A turn takes all work that waits, and for all of it together: writes
 * records and entries in one transaction; commits and syncs; signs the new head; writes it to the
 * side file and syncs that; only then lets the callers go. The head goes into the table with the
 * next turn, or when somebody asks for what it covers ({@link #settle}).
 *
 * <p>Never signs before the commit is on disk, and never a head that does not extend the one it
 * signed before. Whatever fails after the commit stops it until the next start, whose check finds
 * out what is on disk.
 */
final class ClinicLedger implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(ClinicLedger.class);
  private static final int MOST_AT_ONCE = 64;
  private static final long CLOCK_TOLERANCE_MS = 2000;

  private final Store store;
  private final String clinic;
  private final int number;
  private final String origin;
  private final List<SigningKey> keys;
  private final InstantSource clock;
  private final SideFile side;
  private final NoArgGenerator ids = Generators.timeBasedEpochGenerator();
  private final Turns turns = new Turns(MOST_AT_ONCE, this::turn);

  // Used by the thread whose turn it is.
  private final Set<Hash> knownCriteria = new HashSet<>();
  private Frontier frontier = Frontier.empty();
  private Optional<Hash> lastHash = Optional.empty();

  // Written by that thread, looked at by others.
  /** Entries that a checkpoint in the table covers, as far as this process knows. */
  private volatile long filed;

  private volatile long time;
  private volatile TreeHead signed = new TreeHead(0, Hash.EMPTY);
  private final LongAdder appended = new LongAdder();
  private volatile Optional<String> trouble = Optional.empty();

  ClinicLedger(
      Store store,
      String clinic,
      int number,
      LedgerSettings settings,
      InstantSource clock,
      SideFile side) {
    this.store = store;
    this.clinic = clinic;
    this.number = number;
    this.origin = settings.origin(clinic, number);
    this.keys = settings.keys();
    this.clock = clock;
    this.side = side;
  }

  /**
   * Takes over what the check at the start has found, and brings what is signed up to date. A
   * checkpoint in the side file may be missing in the table, as it came there first.
   *
   * @param newestSigned newest head in the table or the side file
   * @param inBoth whether both have it
   */
  void start(
      Recount recount, TreeHead newestSigned, boolean inBoth, List<LedgerVerifierRow> verifiers) {
    frontier = recount.frontier().copy();
    lastHash = recount.lastHash();
    time = recount.time();
    signed = newestSigned;
    String line = key().verifier(origin).line();
    boolean announced =
        !verifiers.isEmpty() && verifiers.get(verifiers.size() - 1).line().equals(line);
    if (announced) {
      if (frontier.size() > signed.size() || !inBoth) {
        keep(sign());
      } else {
        filed = frontier.size();
      }
    } else {
      append(this::announceKey);
    }
    fileLast();
  }

  private SigningKey key() {
    return keys.get(keys.size() - 1);
  }

  private Boolean announceKey(Appending appending) {
    var verifier = key().verifier(origin);
    // Another replica that started at the same time may have said it since this one looked.
    List<LedgerVerifierRow> there = appending.writing().ledger().verifiers(clinic, number);
    if (!there.isEmpty() && there.get(there.size() - 1).line().equals(verifier.line())) {
      return true;
    }
    LOG.info("ledger {}: key {} signs from now on", origin, verifier.id());
    appending.add(NewEntry.key(ids.generate(), verifier.fingerprint()));
    long size = appending.last().orElseThrow() + 1;
    appending
        .writing()
        .ledger()
        .insertVerifier(clinic, number, new LedgerVerifierRow(size, verifier.line()));
    return true;
  }

  /** Does the work when its turn has come; returns when it is recorded, signed and on disk. */
  <T> Appended<T> append(Function<Appending, T> work) {
    return turns.take(work);
  }

  /**
   * Returns when a checkpoint in the table covers what is committed: also entries whose process was
   * killed, or lost the database, before it signed them, or whose checkpoint the database lost.
   */
  void settle() {
    turns.take(this::lookUpFiled);
    if (filed < signed.size()) {
      turns.take(this::lookUpFiled);
    }
  }

  private Boolean lookUpFiled(Appending appending) {
    filed =
        appending
            .writing()
            .ledger()
            .newestCheckpoint(clinic, number)
            .map(note -> Checkpoint.parse(SignedNote.parse(note).text()).head().size())
            .orElse(0L);
    return true;
  }

  private void turn(List<Turns.Waiting<?>> batch) {
    trouble.ifPresent(
        reason -> {
          throw new LedgerRefusal("the ledger of the clinic takes no entries: " + reason);
        });
    Growth growth = growth(batch);
    filed = signed.size();
    if (!growth.rows().isEmpty()) {
      frontier = growth.frontier();
      time = growth.time();
      LedgerEntryRow last = growth.rows().get(growth.rows().size() - 1);
      lastHash = Optional.of(Hash.leaf(last.entry()));
      knownCriteria.addAll(growth.newCriteria());
      appended.add(growth.rows().size());
    }
    if (frontier.size() == signed.size()) {
      return;
    }
    String checkpoint = keep(sign()).toText();
    batch.forEach(waiting -> waiting.covered(checkpoint));
  }

  /** All in one go. Only where a work fails is each done again with a savepoint around it. */
  private Growth growth(List<Turns.Waiting<?>> batch) {
    try {
      return store.writeInTurn(writing -> write(writing, batch, Turns.Waiting::plainly));
    } catch (RuntimeException e) {
      boolean away = e instanceof StoreException && !(e instanceof StoreConflict);
      if (away || batch.size() == 1 || batch.stream().noneMatch(Turns.Waiting::broke)) {
        throw e;
      }
      return store.writeInTurn(writing -> write(writing, batch, Turns.Waiting::apart));
    }
  }

  private Growth write(
      Writing writing, List<Turns.Waiting<?>> batch, BiPredicate<Turns.Waiting<?>, Appending> how) {
    LedgerWriting rows = writing.ledger();
    if (!rows.lock(clinic, number)) {
      throw refuseFromNowOn("its key was replaced, and another ledger goes on", null);
    }
    catchUp(rows);
    long now = clock.millis();
    if (now < time - CLOCK_TOLERANCE_MS) {
      LOG.warn("ledger {}: the clock is {} ms behind the newest entry", origin, time - now);
    }
    Growth growth = new Growth(frontier, time, now);
    for (Turns.Waiting<?> waiting : batch) {
      Growth.Mark mark = growth.mark();
      Appending appending = Appending.to(growth, writing, clinic, knownCriteria, ids::generate);
      if (!how.test(waiting, appending)) {
        growth.backTo(mark);
      }
    }
    rows.append(clinic, number, growth.rows());
    if (filed < signed.size()) {
      side.newest().ifPresent(note -> rows.file(clinic, number, signed.size(), note.toText()));
    }
    return growth;
  }

  /** Takes in what other processes have appended, if it extends what this one has signed. */
  private void catchUp(LedgerWriting rows) {
    Optional<LedgerEntryRow> last = rows.last(clinic, number);
    long size = last.map(row -> row.index() + 1).orElse(0L);
    Optional<Hash> hash = last.map(row -> Hash.leaf(row.entry()));
    if (size == frontier.size() && hash.equals(lastHash)) {
      return;
    }
    StoredTree tree = new StoredTree(rows, clinic, number);
    Frontier grown = size > frontier.size() ? tree.frontier(size) : frontier;
    if (size <= frontier.size() || !extendsSigned(tree, grown.head())) {
      throw refuseFromNowOn("the database no longer holds what was signed", null);
    }
    frontier = grown;
    lastHash = hash;
    time = last.map(row -> Entry.parse(row.entry()).recordedAt()).orElse(time);
  }

  private boolean extendsSigned(StoredTree tree, TreeHead head) {
    return signed.size() == 0
        || ConsistencyProof.verifies(
            signed, head, tree.hashes(ConsistencyProof.path(signed.size(), head.size())));
  }

  private SignedNote sign() {
    return new Checkpoint(origin, frontier.head()).sign(keys);
  }

  /** Keeps a signed head where it outlives a power cut and a loss of the database. */
  private SignedNote keep(SignedNote note) {
    try {
      side.append(note);
    } catch (LedgerRefusal e) {
      throw refuseFromNowOn(String.valueOf(e.getMessage()), e);
    }
    signed = frontier.head();
    return note;
  }

  private LedgerRefusal refuseFromNowOn(String reason, @Nullable Throwable cause) {
    trouble = Optional.of(reason);
    LOG.error("ledger {}: takes no entries until the next start: {}", origin, reason, cause);
    String message = "the ledger of the clinic takes no entries: " + reason;
    return cause == null ? new LedgerRefusal(message) : new LedgerRefusal(message, cause);
  }

  /** Why it takes no entries; empty if it does. */
  Optional<String> trouble() {
    return trouble;
  }

  /**
   * Whether the database holds what this process signed last: the root of the tree, made of the few
   * rows at its right edge, is that of the checkpoint.
   */
  boolean holdsSigned() {
    TreeHead head = signed;
    try {
      return head.size() == 0
          || store
              .read(reading -> new StoredTree(reading.ledger(), clinic, number).head(head.size()))
              .equals(head);
    } catch (LedgerRefusal lost) {
      return false;
    }
  }

  /** Entries added by this process. */
  long appended() {
    return appended.sum();
  }

  /** Time of the newest entry, Unix milliseconds. */
  long time() {
    return time;
  }

  String origin() {
    return origin;
  }

  int number() {
    return number;
  }

  /**
   * Leaves the last checkpoint in the table too, for who reads the database by itself. Nothing is
   * lost without: the side file has it.
   *
   * @return false if the database does not take it
   */
  boolean fileLast() {
    try {
      if (filed < signed.size()) {
        settle();
      }
      return true;
    } catch (StoreException e) {
      LOG.warn("ledger {}: the last checkpoint is not in the table: {}", origin, e.getMessage());
      return e instanceof LedgerRefusal;
    }
  }

  @Override
  public void close() {
    side.close();
  }
}

package evenside.ledger;

import evenside.merkle.TreeHead;
import evenside.note.SignedNote;
import evenside.store.Store;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreException;
import evenside.store.ledger.LedgerRow;
import evenside.store.ledger.LedgerVerifierRow;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The ledgers of all clinics, as this process writes them.
 *
 * <p>At the start every ledger is counted again and compared with the newest checkpoint in the
 * table and in the side file. One that does not hold what was signed takes no entries; reading goes
 * on. Without a key the ledger is off: records are kept and cannot be proved. Safe for use by many
 * threads.
 */
public final class Ledger implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Ledger.class);

  /** More than one may be added about the same record while it is looked up. */
  private static final int LOOKS = 4;

  private final Store store;
  private final @Nullable LedgerSettings settings;
  private final InstantSource clock;
  private final Disk disk;
  private final AtomicInteger lookedAt = new AtomicInteger();
  private final Map<String, Slot> ledgers = new ConcurrentHashMap<>();

  /** A ledger that grows, or why the clinic's does not. */
  private record Slot(@Nullable ClinicLedger ledger, String trouble) {
    Optional<String> why() {
      return ledger == null ? Optional.of(trouble) : ledger.trouble();
    }
  }

  private Ledger(Store store, @Nullable LedgerSettings settings, InstantSource clock, Disk disk) {
    this.store = store;
    this.settings = settings;
    this.clock = clock;
    this.disk = disk;
  }

  /** No ledger: nothing is signed. */
  public static Ledger off(Store store) {
    return new Ledger(store, null, InstantSource.system(), Disk.REAL);
  }

  /**
   * Opens the ledgers, and checks every one that is there. What is wrong with one is in {@link
   * #trouble}.
   *
   * @throws LedgerRefusal if the folder cannot be used
   */
  public static Ledger open(Store store, LedgerSettings settings, InstantSource clock) {
    return open(store, settings, clock, Disk.REAL);
  }

  static Ledger open(Store store, LedgerSettings settings, InstantSource clock, Disk disk) {
    if (!Files.isDirectory(settings.folder())) {
      throw new LedgerRefusal("the ledger folder is not there: " + settings.folder());
    }
    Ledger ledger = new Ledger(store, settings, clock, disk);
    List<LedgerRow> there = store.read(reading -> reading.ledger().all());
    there.stream().map(LedgerRow::clinic).distinct().forEach(ledger::slot);
    return ledger;
  }

  /**
   * Starts the ledger of a clinic now, so that its key is published before the first record. What
   * is wrong with it is in {@link #trouble}.
   */
  public void prepare(String clinic) {
    if (settings != null) {
      slot(clinic);
    }
  }

  /** Whether entries are signed; if not, nothing can be proved later. */
  public boolean on() {
    return settings != null;
  }

  /** What is wrong, a sentence for each ledger that takes no entries; empty if all is well. */
  public List<String> trouble() {
    List<String> all = new ArrayList<>();
    ledgers.forEach((clinic, slot) -> slot.why().ifPresent(why -> all.add(clinic + ": " + why)));
    return all;
  }

  /**
   * Whether the database holds what was signed last, looked at for a few ledgers; the next call
   * goes on with others. It costs a query a ledger, so it can be asked every few seconds.
   *
   * @param most ledgers to look at
   */
  public boolean holdsSigned(int most) {
    List<ClinicLedger> growing =
        ledgers.values().stream().map(Slot::ledger).filter(Objects::nonNull).toList();
    int from = growing.isEmpty() ? 0 : Math.floorMod(lookedAt.getAndAdd(most), growing.size());
    for (int i = 0; i < Math.min(most, growing.size()); i++) {
      if (!growing.get((from + i) % growing.size()).holdsSigned()) {
        return false;
      }
    }
    return true;
  }

  /** Entries that this process has added, in all ledgers. */
  public long appended() {
    return ledgers.values().stream()
        .map(Slot::ledger)
        .filter(Objects::nonNull)
        .mapToLong(ClinicLedger::appended)
        .sum();
  }

  /** When the newest entry of all ledgers was added; empty if there is none. */
  public Optional<Instant> newestEntry() {
    return ledgers.values().stream()
        .map(Slot::ledger)
        .filter(Objects::nonNull)
        .map(ClinicLedger::time)
        .filter(time -> time > 0)
        .max(Long::compare)
        .map(Instant::ofEpochMilli);
  }

  /**
   * Records something, with entries in the ledger, in one transaction. Returns when records and
   * entries are on disk and a signed checkpoint covers them.
   *
   * @param work writes the records and adds the entries; may run on another thread; must not keep
   *     what it is given
   * @throws LedgerRefusal if the ledger takes no entries
   * @throws StoreConflict if the work met something that is already there
   */
  public <T> Appended<T> append(String clinic, Function<Appending, T> work) {
    if (settings == null) {
      T result = store.writeInTurn(writing -> work.apply(Appending.nowhere(writing, clinic)));
      return new Appended<>(result, Optional.empty());
    }
    Slot slot = slot(clinic);
    if (slot.ledger() == null) {
      throw new LedgerRefusal("the ledger of the clinic takes no entries: " + slot.trouble());
    }
    return slot.ledger().append(work);
  }

  /**
   * Where the ledger has a record, with a checkpoint that covers it.
   *
   * @return empty if the ledger has no entry of it, or cannot sign it now
   */
  public Optional<Receipt> receipt(String clinic, UUID recordId) {
    try {
      return proofs(clinic).receipt(recordId);
    } catch (StoreException e) {
      LOG.warn("ledger of clinic {}: no receipt: {}", clinic, e.getMessage());
      return Optional.empty();
    }
  }

  /**
   * Looks something up that signed checkpoints must cover. Where an entry has none in the table
   * yet, as it was recorded a moment ago, here or by another process, or by one that was killed
   * before it signed, it gets one, and the look-up is done again.
   *
   * @param lookUp asks {@link Proofs#within}, in a transaction of its own
   * @throws LedgerRefusal if the ledger cannot sign now
   */
  public <T> T signed(String clinic, Supplier<T> lookUp) {
    for (int look = 1; look < LOOKS; look++) {
      try {
        return lookUp.get();
      } catch (Unsigned newest) {
        settle(clinic);
      }
    }
    return lookUp.get();
  }

  private void settle(String clinic) {
    if (settings == null) {
      throw new Unsigned();
    }
    Slot slot = slot(clinic);
    if (slot.ledger() == null) {
      throw new LedgerRefusal("the ledger of the clinic takes no entries: " + slot.trouble());
    }
    slot.ledger().settle();
  }

  /** What can be looked up and proved about a clinic's entries. */
  public Proofs proofs(String clinic) {
    return Proofs.of(this, store, clinic);
  }

  private Slot slot(String clinic) {
    return ledgers.computeIfAbsent(clinic, this::start);
  }

  private Slot start(String clinic) {
    try {
      return new Slot(startChecked(clinic), "");
    } catch (LedgerRefusal | IllegalArgumentException e) {
      LOG.error("ledger of clinic {}: takes no entries: {}", clinic, e.getMessage(), e);
      return new Slot(null, String.valueOf(e.getMessage()));
    }
  }

  private ClinicLedger startChecked(String clinic) {
    LedgerSettings how = Objects.requireNonNull(settings);
    LedgerRow row = newest(clinic, how);
    Path later = CheckpointFiles.of(how.folder(), clinic, row.number() + 1);
    if (Files.exists(later)) {
      throw new LedgerRefusal(
          "the database is behind: the file %s has checkpoints of a ledger that is not in it"
              .formatted(later.getFileName()));
    }
    SideFile side = SideFile.open(CheckpointFiles.of(how.folder(), clinic, row.number()), disk);
    try {
      return startOn(row, how, side);
    } catch (RuntimeException e) {
      side.close();
      throw e;
    }
  }

  private LedgerRow newest(String clinic, LedgerSettings how) {
    CheckpointFiles.of(how.folder(), clinic, 1);
    List<LedgerRow> there = store.read(reading -> reading.ledger().of(clinic));
    if (!there.isEmpty()) {
      return there.get(there.size() - 1);
    }
    LedgerRow first = new LedgerRow(clinic, 1, how.origin(clinic, 1), clock.instant());
    try {
      return store.write(
          writing -> {
            writing.ledger().start(first);
            return first;
          });
    } catch (StoreConflict another) {
      return store.read(reading -> reading.ledger().of(clinic)).stream()
          .findFirst()
          .orElseThrow(() -> another);
    }
  }

  /** Of one state of the table: another replica may announce the first key and sign meanwhile. */
  private record Signed(List<LedgerVerifierRow> keys, Optional<String> checkpoint) {}

  private ClinicLedger startOn(LedgerRow row, LedgerSettings how, SideFile side) {
    String clinic = row.clinic();
    int number = row.number();
    LedgerSettings.demandName(how.name(), row);
    Signed signed =
        store.read(
            reading ->
                new Signed(
                    reading.ledger().verifiers(clinic, number),
                    reading.ledger().newestCheckpoint(clinic, number)));
    List<LedgerVerifierRow> keys = signed.keys();
    demandKey(keys, row.origin(), how);
    SignedHeads heads = new SignedHeads(row.origin(), keys);
    Optional<TreeHead> inTable =
        signed.checkpoint().map(note -> heads.head(SignedNote.parse(note), "table"));
    Optional<TreeHead> inFile = side.newest().map(note -> heads.head(note, "side file"));
    if (inTable.isPresent() && inFile.isEmpty()) {
      LOG.warn("ledger {}: no checkpoint beside the database, only inside it", row.origin());
    }
    List<Long> sizes = new ArrayList<>();
    inTable.ifPresent(head -> sizes.add(head.size()));
    inFile.ifPresent(head -> sizes.add(head.size()));
    Recount recount = Recount.of(store, clinic, number, sizes, entry -> {});
    inTable.ifPresent(head -> heads.demand(recount, head, "table"));
    inFile.ifPresent(head -> heads.demand(recount, head, "side file"));
    ClinicLedger ledger = new ClinicLedger(store, clinic, number, how, clock, side);
    ledger.start(recount, larger(inTable, inFile), inTable.equals(inFile), keys);
    LOG.info("ledger {}: {} entries", row.origin(), recount.frontier().size());
    return ledger;
  }

  /** A key that nobody announced would sign what no pinned key verifies. */
  private static void demandKey(List<LedgerVerifierRow> keys, String origin, LedgerSettings how) {
    if (keys.isEmpty()) {
      return;
    }
    String announced = keys.get(keys.size() - 1).line();
    boolean there =
        how.keys().stream().anyMatch(key -> key.verifier(origin).line().equals(announced));
    if (!there) {
      throw new LedgerRefusal(
          "its key is %s, which is not among those given; a new key needs the old one beside it"
              .formatted(announced));
    }
  }

  private static TreeHead larger(Optional<TreeHead> a, Optional<TreeHead> b) {
    TreeHead none = new TreeHead(0, evenside.merkle.Hash.EMPTY);
    TreeHead first = a.orElse(none);
    TreeHead second = b.orElse(none);
    return first.size() >= second.size() ? first : second;
  }

  @Override
  public void close() {
    boolean answers = true;
    for (Slot slot : ledgers.values()) {
      if (slot.ledger() != null) {
        // A database that is away is waited for once, not for the ledger of each clinic.
        answers = answers && slot.ledger().fileLast();
        slot.ledger().close();
      }
    }
  }
}

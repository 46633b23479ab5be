package evenside.ledger;

import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import evenside.store.Store;
import evenside.store.ledger.LedgerRow;
import evenside.store.ledger.LedgerVerifierRow;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Replaces a key that others may know, or that is lost. What a known one signs from then on is
 * worth nothing, and a lost one signs nothing, so the ledger of each clinic ends, and a new one
 * goes on from what somebody outside has kept of it: {@link Continuation}.
 *
 * <p>The new key has a file of its own until every clinic has its new ledger; so a replacement that
 * was broken off is ended by doing it again.
 */
public final class KeyReplacement {
  /** Why a key is replaced. */
  public enum Why {
    /** Others may know it. Its file is there, and shows that it is this key that is meant. */
    KNOWN,
    /** Its file is gone. */
    LOST
  }

  private static final Logger LOG = LoggerFactory.getLogger(KeyReplacement.class);

  /** For those who do it again after it had ended. */
  private static final String ENDED =
      "; if the key was replaced just now, ledger-key show prints the new one";

  private final Store store;
  private final Path folder;
  private final String name;
  private final Path key;
  private final Why why;
  private final Path next;
  private final InstantSource clock;

  private KeyReplacement(
      Store store, Path folder, String name, Path key, Why why, InstantSource clock) {
    this.store = store;
    this.folder = folder;
    this.name = name;
    this.key = key;
    this.why = why;
    this.next = key.resolveSibling(key.getFileName() + ".next");
    this.clock = clock;
  }

  /**
   * Replaces a key. Whoever serves the record must be stopped. The old key's file gets the ending
   * {@code .compromised-} and its id.
   *
   * @param folder where the service keeps the checkpoints that it signed
   * @param name start of the names of the ledgers
   * @param key the file of the key
   * @param why whether that must be there, or must not
   * @param witnessed for each clinic the newest checkpoint that somebody outside has kept; of a
   *     lost key none is needed, and what it signed last is taken where that is newer
   * @return the new key, as each new ledger names it
   * @throws LedgerRefusal if it is not the key of the ledgers, or not lost, or the checkpoint of a
   *     clinic is missing or not of its ledger; then nothing was changed
   */
  public static List<VerifierKey> run(
      Store store,
      Path folder,
      String name,
      Path key,
      Why why,
      List<SignedNote> witnessed,
      InstantSource clock) {
    return new KeyReplacement(store, folder, name, key, why, clock).run(witnessed);
  }

  private List<VerifierKey> run(List<SignedNote> witnessed) {
    LedgerSettings.demandNoOverlap(key);
    Optional<SigningKey> begun = begun();
    List<LedgerRow> left =
        newest().stream()
            .filter(row -> begun.filter(fresh -> isSignedBy(row, fresh)).isEmpty())
            .toList();
    Map<String, SignedNote> notes = largest(witnessed);
    if (why == Why.LOST) {
      left.stream()
          .filter(row -> notes.containsKey(row.origin()))
          .forEach(row -> demand(row, notes));
      left.forEach(row -> own(row).ifPresent(note -> add(notes, row.origin(), note)));
    }
    left.forEach(row -> demand(row, notes));
    SigningKey fresh = begun.orElseGet(() -> KeyFiles.create(next));
    LedgerSettings settings = new LedgerSettings(folder, name, List.of(fresh));
    for (LedgerRow row : left) {
      SignedNote note = Objects.requireNonNull(notes.get(row.origin()));
      fileOwn(row);
      Continuation.start(store, row.clinic(), settings, note, clock);
    }
    KeyFiles.replace(key, next);
    return newest().stream().map(row -> fresh.verifier(row.origin())).toList();
  }

  /** The new key of a replacement that was broken off. */
  private Optional<SigningKey> begun() {
    if (Files.exists(next)) {
      return Optional.of(KeyFiles.read(next));
    }
    if (why == Why.LOST) {
      demandLost();
    }
    if (why == Why.KNOWN) {
      KeyFiles.read(key);
    }
    return Optional.empty();
  }

  /** A slip in the name of the file must not end a ledger whose key lies beside the record. */
  private void demandLost() {
    Path beside = LedgerSettings.keyIn(folder);
    Path there = Files.exists(key) ? key : beside;
    if (Files.exists(key) || (Files.exists(beside) && signs(KeyFiles.read(beside)))) {
      throw new LedgerRefusal("the key is not lost: there is a key file " + there + ENDED);
    }
  }

  private boolean signs(SigningKey signing) {
    return newest().stream().anyMatch(row -> isSignedBy(row, signing));
  }

  /**
   * What the ledger signed last itself, which nobody else can have signed while its key was one.
   */
  private Optional<SignedNote> own(LedgerRow row) {
    Path file = CheckpointFiles.of(folder, row.clinic(), row.number());
    if (Files.exists(file)) {
      try (SideFile side = SideFile.open(file, Disk.REAL)) {
        return side.newest();
      }
    }
    return store
        .read(reading -> reading.ledger().newestCheckpoint(row.clinic(), row.number()))
        .map(SignedNote::parse);
  }

  private void demand(LedgerRow row, Map<String, SignedNote> notes) {
    SignedNote note = notes.get(row.origin());
    if (note == null) {
      throw new LedgerRefusal(
          "no checkpoint was given of the ledger %s: the newest that somebody outside has kept%s"
              .formatted(row.origin(), row.number() > 1 ? ENDED : ""));
    }
    if (size(note) == 0) {
      throw new LedgerRefusal(
          "the checkpoint that was given of the ledger %s covers no entry".formatted(row.origin()));
    }
    LedgerSettings.demandName(name, row);
    if (why == Why.KNOWN && !isSignedBy(row, KeyFiles.read(key))) {
      throw new LedgerRefusal(
          "the ledger %s is signed by another key than that in %s".formatted(row.origin(), key));
    }
    Continuation.demandWitnessed(store, row, note);
  }

  /**
   * Files what the ledger signed last itself: after a kill that is beside the database alone, and
   * nothing can be proved any more by what is not in the table when the ledger ends.
   */
  private void fileOwn(LedgerRow row) {
    try {
      Optional<SignedNote> own = own(row);
      own.ifPresent(note -> Continuation.demandWitnessed(store, row, note));
      own.ifPresent(note -> file(row, note));
    } catch (LedgerRefusal broken) {
      LOG.warn("ledger {}: ends without its own checkpoint: {}", row.origin(), broken.getMessage());
    }
  }

  private void file(LedgerRow row, SignedNote note) {
    store.<Boolean>write(
        writing -> {
          writing.ledger().file(row.clinic(), row.number(), size(note), note.toText());
          return true;
        });
  }

  private List<LedgerRow> all() {
    return store.read(reading -> reading.ledger().all());
  }

  /** The newest ledger of each clinic. */
  private List<LedgerRow> newest() {
    Map<String, LedgerRow> newest = new TreeMap<>();
    all().forEach(row -> newest.merge(row.clinic(), row, KeyReplacement::later));
    return List.copyOf(newest.values());
  }

  private static LedgerRow later(LedgerRow a, LedgerRow b) {
    return a.number() > b.number() ? a : b;
  }

  private boolean isSignedBy(LedgerRow row, SigningKey signing) {
    List<LedgerVerifierRow> keys = Continuation.keys(store, row);
    return !keys.isEmpty()
        && keys.get(keys.size() - 1).line().equals(signing.verifier(row.origin()).line());
  }

  /** Of each ledger the largest checkpoint that was given. */
  private Map<String, SignedNote> largest(List<SignedNote> witnessed) {
    Set<String> known = all().stream().map(LedgerRow::origin).collect(Collectors.toSet());
    Map<String, SignedNote> notes = new HashMap<>();
    for (SignedNote note : witnessed) {
      String origin = Checkpoint.parse(note.text()).origin();
      if (!known.contains(origin)) {
        throw new LedgerRefusal("the checkpoint is of a ledger that is not here: " + origin);
      }
      add(notes, origin, note);
    }
    return notes;
  }

  private static void add(Map<String, SignedNote> notes, String origin, SignedNote note) {
    notes.merge(origin, note, (a, b) -> size(a) > size(b) ? a : b);
  }

  private static long size(SignedNote note) {
    return Checkpoint.parse(note.text()).head().size();
  }
}

package evenside.ledger;

import evenside.merkle.Hash;
import evenside.merkle.TreeHead;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.store.Reading;
import evenside.store.Store;
import evenside.store.ledger.LedgerReading;
import evenside.store.ledger.LedgerRow;
import evenside.store.ledger.StoredSalts;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * Checks everything there is: every entry, every checkpoint in the table, and every document
 * against the commitment to it. A document that is gone without an entry of its erasure is lost.
 */
public final class LedgerAudit {
  private final Store store;
  private final List<Kept> kept;
  private final LedgerRow ledger;
  private final List<String> findings = new ArrayList<>();
  private final Set<UUID> erased = new HashSet<>();
  private final List<Entry> entries = new ArrayList<>();

  /** A checkpoint outside the database, and where, for the message. */
  private record Kept(SignedNote note, String where) {}

  private LedgerAudit(Store store, LedgerRow ledger, List<Kept> kept) {
    this.store = store;
    this.kept = kept;
    this.ledger = ledger;
  }

  /**
   * Checks every ledger of a clinic.
   *
   * @return one sentence for each thing that is wrong, naming the index; empty if nothing is
   */
  public static List<String> of(Store store, String clinic) {
    return of(store, clinic, Optional.empty(), List.of());
  }

  /**
   * Checks every ledger of a clinic, also against checkpoints that were kept outside the database:
   * a database restored from an older copy is found out by them.
   *
   * @param folder where a process of the service keeps its checkpoints; it must be stopped
   * @param kept checkpoints that somebody else kept, each of a ledger of the clinic
   * @return one sentence for each thing that is wrong, naming the index; empty if nothing is
   */
  public static List<String> of(
      Store store, String clinic, Optional<Path> folder, List<SignedNote> kept) {
    return ofLedgers(store, store.read(reading -> reading.ledger().of(clinic)), folder, kept);
  }

  /**
   * The same for the ledgers that are named.
   *
   * @param ledgers ledgers of the store
   */
  public static List<String> ofLedgers(
      Store store, List<LedgerRow> ledgers, Optional<Path> folder, List<SignedNote> kept) {
    List<String> all = new ArrayList<>();
    List<SignedNote> unknown = new ArrayList<>(kept);
    for (LedgerRow row : ledgers) {
      List<SignedNote> given =
          kept.stream().filter(note -> origin(note).equals(row.origin())).toList();
      unknown.removeAll(given);
      List<Kept> ofThis = new ArrayList<>();
      given.forEach(note -> ofThis.add(new Kept(note, "file that was given")));
      try {
        folder.ifPresent(path -> ofThis.addAll(sideNotes(path, row)));
        LedgerAudit audit = new LedgerAudit(store, row, ofThis);
        audit.run();
        audit.findings.forEach(finding -> all.add(row.origin() + ": " + finding));
      } catch (LedgerRefusal refusal) {
        all.add(row.origin() + ": " + refusal.getMessage());
      }
    }
    unknown.forEach(
        note -> all.add("the checkpoint is of a ledger that is not here: " + origin(note)));
    return all;
  }

  /**
   * Files of checkpoints whose ledger is not in the record: it was taken away, or the folder is
   * that of another record.
   *
   * @param folder where a process of the service keeps its checkpoints
   * @param ledgers all ledgers of the record
   * @return one sentence for each
   */
  public static List<String> withoutLedger(Path folder, List<LedgerRow> ledgers) {
    Set<Path> known = new HashSet<>();
    ledgers.forEach(row -> known.add(CheckpointFiles.of(folder, row.clinic(), row.number())));
    return CheckpointFiles.in(folder).stream()
        .filter(file -> !known.contains(file))
        .map(
            file ->
                "the file %s has checkpoints of a ledger that is not in the record"
                    .formatted(file.getFileName()))
        .toList();
  }

  private static List<Kept> sideNotes(Path folder, LedgerRow row) {
    Path file = CheckpointFiles.of(folder, row.clinic(), row.number());
    if (!Files.exists(file)) {
      return List.of();
    }
    try (SideFile side = SideFile.open(file, Disk.REAL)) {
      return side.newest().map(note -> new Kept(note, "file beside the database")).stream()
          .toList();
    }
  }

  private static String origin(SignedNote note) {
    return Checkpoint.parse(note.text()).origin();
  }

  private void run() {
    try {
      tree();
    } catch (LedgerRefusal refusal) {
      findings.add(String.valueOf(refusal.getMessage()));
      return;
    }
    for (int index = 0; index < entries.size(); index++) {
      int at = index;
      store.<Boolean>read(
          reading -> {
            document(reading, at, entries.get(at));
            return true;
          });
    }
  }

  private void tree() {
    String clinic = ledger.clinic();
    int number = ledger.number();
    SignedHeads heads =
        new SignedHeads(
            ledger.origin(), store.read(reading -> reading.ledger().verifiers(clinic, number)));
    List<TreeHead> signed = new ArrayList<>();
    for (Optional<String> note = checkpoint(0); note.isPresent(); ) {
      TreeHead head = heads.head(SignedNote.parse(note.get()), "table");
      signed.add(head);
      note = checkpoint(head.size() + 1);
    }
    Map<Kept, TreeHead> outside = new LinkedHashMap<>();
    kept.forEach(one -> outside.put(one, heads.head(one.note(), one.where())));
    List<Long> sizes =
        Stream.concat(signed.stream(), outside.values().stream()).map(TreeHead::size).toList();
    Recount recount = Recount.of(store, clinic, number, sizes, this::remember);
    signed.forEach(head -> heads.demand(recount, head, "table"));
    outside.forEach((one, head) -> heads.demand(recount, head, one.where()));
  }

  private Optional<String> checkpoint(long fromSize) {
    return store.read(
        reading -> reading.ledger().checkpointFrom(ledger.clinic(), ledger.number(), fromSize));
  }

  private void remember(Entry entry) {
    entries.add(entry);
    if (entry.type() == EntryType.ERASURE) {
      erased.add(entry.refersTo().orElseThrow());
    }
  }

  private void document(Reading reading, int index, Entry entry) {
    String clinic = ledger.clinic();
    UUID id = entry.id();
    switch (entry.type()) {
      case DECISION -> {
        criteria(reading.ledger(), index, entry);
        var decision = reading.decision(clinic, id);
        var salts = reading.ledger().salts(clinic, id);
        committed(
            index,
            id,
            "decision",
            decision.map(d -> d.document()),
            salts.map(StoredSalts::document),
            entry.document());
        committed(
            index,
            id,
            "inputs",
            decision.map(d -> d.inputs()),
            salts.flatMap(StoredSalts::inputs),
            entry.inputs());
      }
      case CRITERIA_SET -> criteria(reading.ledger(), index, entry);
      case DETERMINATION ->
          committed(
              index,
              id,
              "determination",
              reading.audit().determination(clinic, id).map(d -> d.document()),
              reading.ledger().salts(clinic, id).map(StoredSalts::document),
              entry.document());
      case CORRECTION ->
          committed(
              index,
              id,
              "battery",
              reading.battery(clinic, id).map(battery -> battery.document()),
              reading.ledger().salts(clinic, id).map(StoredSalts::document),
              entry.document());
      case KEY, ERASURE, CONTINUATION -> {}
    }
  }

  private void criteria(LedgerReading reading, int index, Entry entry) {
    Optional<byte[]> kept = reading.criteria(ledger.clinic(), entry.criteria().hex());
    if (kept.isEmpty()) {
      findings.add("entry %d: its criteria set is lost".formatted(index));
    } else if (!Hash.sha256(kept.get()).equals(entry.criteria())) {
      findings.add("entry %d: its criteria set was replaced by another".formatted(index));
    }
  }

  private void committed(
      int index,
      UUID id,
      String what,
      Optional<byte[]> kept,
      Optional<byte[]> salt,
      Hash commitment) {
    if (erased.contains(id)) {
      if (kept.isPresent() || salt.isPresent()) {
        findings.add("entry %d: the %s was erased, but is there".formatted(index, what));
      }
    } else if (kept.isEmpty() || salt.isEmpty()) {
      findings.add("entry %d: the %s is lost, and no erasure says why".formatted(index, what));
    } else if (!Commitment.of(salt.get(), kept.get()).equals(commitment)) {
      findings.add("entry %d: the %s was replaced by another".formatted(index, what));
    }
  }
}

package evenside.api.command;

import evenside.api.Place;
import evenside.api.settings.BadSettings;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import evenside.ledger.KeyReplacement;
import evenside.ledger.LedgerAudit;
import evenside.ledger.LedgerSettings;
import evenside.note.SignedNote;
import evenside.note.VerifierKey;
import evenside.readiness.audit.RecordAudit;
import evenside.store.Store;
import evenside.store.database.StoreException;
import evenside.store.database.StoreInUse;
import evenside.store.ledger.LedgerRow;
import evenside.store.upkeep.BackupFile;
import evenside.store.upkeep.Move;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/** What is done with a record as a whole: checked, copied, brought back, moved. */
final class Upkeep {
  private Upkeep() {}

  /**
   * Checks a record against its ledger.
   *
   * @param kept checkpoints that somebody kept
   * @return one sentence for each thing that is wrong
   */
  static Audited audit(Place place, Optional<String> clinic, List<SignedNote> kept) {
    // Beside a database server each replica keeps its own, and may be running.
    Optional<Path> beside = place.embedded() ? Optional.of(place.folder()) : Optional.empty();
    try (Store store = Store.open(place.store())) {
      List<LedgerRow> all = store.read(reading -> reading.ledger().all());
      List<LedgerRow> ledgers =
          all.stream()
              .filter(row -> clinic.isEmpty() || clinic.get().equals(row.clinic()))
              .toList();
      List<String> findings = new ArrayList<>();
      beside.ifPresent(folder -> findings.addAll(LedgerAudit.withoutLedger(folder, all)));
      if (ledgers.isEmpty() && findings.isEmpty()) {
        throw new IllegalArgumentException(
            "nothing was checked: the record has no ledger"
                + clinic.map(name -> " of the clinic " + name).orElse(""));
      }
      findings.addAll(LedgerAudit.ofLedgers(store, ledgers, beside, kept));
      Map<String, Integer> counts = new LinkedHashMap<>();
      for (String one : store.read(reading -> reading.pages().clinics())) {
        if (clinic.isEmpty() || clinic.get().equals(one)) {
          if (ledgers.stream().noneMatch(row -> row.clinic().equals(one))) {
            findings.add("clinic " + one + ": it has records and no ledger");
          }
          RecordAudit.Result record = RecordAudit.of(store, one);
          record.findings().forEach(finding -> findings.add("clinic " + one + ": " + finding));
          record.counts().forEach((what, count) -> counts.merge(what, count, Integer::sum));
        }
      }
      return new Audited(ledgers.stream().map(LedgerRow::origin).toList(), counts, findings);
    } catch (StoreInUse running) {
      throw new IllegalArgumentException(
          running.getMessage()
              + "; stop it first, or make a copy of the record (backup), put that in another folder"
              + " (restore) and audit it there",
          running);
    }
  }

  /**
   * An audit.
   *
   * @param ledgers the names of the ledgers that were checked
   * @param counts how much of the record was looked at, by its name
   * @param findings one sentence for each thing that is wrong
   */
  record Audited(List<String> ledgers, Map<String, Integer> counts, List<String> findings) {}

  /**
   * Replaces a key that others know, or that is lost.
   *
   * @param settings the key and the name of the ledgers
   * @param why whether the key is known to others, or lost
   * @param kept checkpoints that somebody outside has kept
   * @return the new key, as each clinic's new ledger names it
   */
  static List<VerifierKey> replaceKey(
      Place place, Settings settings, KeyReplacement.Why why, List<SignedNote> kept) {
    Optional<Path> named = settings.get(Catalogue.LEDGER_KEY);
    if (named.isEmpty() && !place.embedded()) {
      throw new BadSettings("name the key by --ledger-key");
    }
    Path key = named.orElseGet(() -> LedgerSettings.keyIn(place.folder()));
    try (Store store = Store.open(place.store())) {
      return KeyReplacement.run(
          store,
          place.folder(),
          settings.get(Catalogue.LEDGER_NAME),
          key,
          why,
          kept,
          InstantSource.system());
    } catch (StoreInUse running) {
      throw new IllegalArgumentException(running.getMessage() + "; stop it first", running);
    }
  }

  /** Whether a running service has the record of a data folder open. */
  static boolean isOpenElsewhere(Place place) {
    return place.embedded() && Store.isOpenElsewhere(place.store());
  }

  /** Copies the record of a stopped service to a file. */
  static void backUp(Place place, Path file) {
    try (Store store = Store.open(place.store())) {
      store.backUp(file);
    }
  }

  /** Puts a copy into a data folder that has no record, and checks every ledger in it. */
  static List<String> restore(Path file, Place place) {
    BackupFile.restore(file, place.folder());
    try {
      return auditAll(place);
    } catch (StoreException broken) {
      BackupFile.takeBack(place.folder());
      throw new IllegalArgumentException(
          "the database in " + file + " cannot be opened, so nothing was restored", broken);
    }
  }

  /** Copies a whole record to an empty database, and checks every ledger there. */
  static List<String> move(Place from, Place to, Consumer<Move.Copied> progress) {
    List<String> before = auditAll(from);
    if (!before.isEmpty()) {
      throw new IllegalArgumentException(
          "the record does not hold, so it is not moved: " + String.join("; ", before));
    }
    Move.copy(from.store(), to.store(), progress);
    return auditAll(to);
  }

  private static List<String> auditAll(Place place) {
    try (Store store = Store.open(place.store())) {
      List<String> findings = new ArrayList<>();
      List<String> clinics =
          store.read(reading -> reading.ledger().all()).stream()
              .map(row -> row.clinic())
              .distinct()
              .toList();
      clinics.forEach(clinic -> findings.addAll(LedgerAudit.of(store, clinic)));
      return findings;
    }
  }
}

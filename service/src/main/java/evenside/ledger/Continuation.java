package evenside.ledger;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.merkle.Frontier;
import evenside.merkle.Hash;
import evenside.merkle.TreeHead;
import evenside.note.SignedNote;
import evenside.note.VerifierKey;
import evenside.store.Store;
import evenside.store.ledger.LedgerRow;
import evenside.store.ledger.LedgerVerifierRow;
import evenside.store.ledger.LedgerWriting;
import java.nio.charset.StandardCharsets;
import java.time.InstantSource;
import java.util.List;

/**
 * Goes on after a key was compromised: the old ledger is frozen where a checkpoint held outside
 * covers it, and a new one, with another name and another key, starts with an entry that carries
 * the old root and the hash of that checkpoint. Old entries stay provable in the old one.
 */
final class Continuation {
  private Continuation() {}

  /**
   * Starts a new ledger for a clinic. The service must be stopped.
   *
   * @param settings with the new key alone
   * @param witnessed the newest checkpoint of the old ledger that somebody outside has kept
   * @return the name of the new ledger
   * @throws LedgerRefusal if the checkpoint is not the old ledger's, or the key is an old one
   */
  static String start(
      Store store,
      String clinic,
      LedgerSettings settings,
      SignedNote witnessed,
      InstantSource clock) {
    List<LedgerRow> ledgers = store.read(reading -> reading.ledger().of(clinic));
    if (ledgers.isEmpty()) {
      throw new LedgerRefusal("the clinic has no ledger to be continued");
    }
    LedgerRow old = ledgers.get(ledgers.size() - 1);
    List<LedgerVerifierRow> keys = keys(store, old);
    TreeHead head = demandWitnessed(store, old, keys, witnessed);
    LedgerRow next =
        new LedgerRow(
            clinic, old.number() + 1, settings.origin(clinic, old.number() + 1), clock.instant());
    VerifierKey key = settings.key().verifier(next.origin());
    demandNewKey(settings, old.origin(), keys);
    store.<Boolean>write(
        writing -> {
          LedgerWriting rows = writing.ledger();
          rows.file(clinic, old.number(), head.size(), witnessed.toText());
          write(rows, next, key, head, witnessed, clock.millis());
          return true;
        });
    return next.origin();
  }

  /**
   * Demands that a checkpoint is of a ledger as it is.
   *
   * @throws LedgerRefusal if it is not
   */
  static TreeHead demandWitnessed(Store store, LedgerRow old, SignedNote witnessed) {
    return demandWitnessed(store, old, keys(store, old), witnessed);
  }

  static List<LedgerVerifierRow> keys(Store store, LedgerRow ledger) {
    return store.read(reading -> reading.ledger().verifiers(ledger.clinic(), ledger.number()));
  }

  private static TreeHead demandWitnessed(
      Store store, LedgerRow old, List<LedgerVerifierRow> keys, SignedNote witnessed) {
    SignedHeads heads = new SignedHeads(old.origin(), keys);
    TreeHead head = heads.head(witnessed, "file given");
    Recount recount =
        Recount.of(store, old.clinic(), old.number(), List.of(head.size()), entry -> {});
    heads.demand(recount, head, "file given");
    return head;
  }

  private static void demandNewKey(
      LedgerSettings settings, String oldOrigin, List<LedgerVerifierRow> keys) {
    String underOldName = settings.key().verifier(oldOrigin).line();
    if (keys.stream().anyMatch(key -> key.line().equals(underOldName))) {
      throw new LedgerRefusal("the key of a compromised ledger cannot sign its continuation");
    }
  }

  private static void write(
      LedgerWriting rows,
      LedgerRow next,
      VerifierKey key,
      TreeHead head,
      SignedNote witnessed,
      long now) {
    NoArgGenerator ids = Generators.timeBasedEpochGenerator();
    Hash checkpoint = Hash.sha256(witnessed.toText().getBytes(StandardCharsets.UTF_8));
    Growth growth = new Growth(Frontier.empty(), 0, now);
    growth.add(NewEntry.continuation(ids.generate(), head.root(), checkpoint));
    growth.add(NewEntry.key(ids.generate(), key.fingerprint()));
    rows.start(next);
    rows.append(next.clinic(), next.number(), growth.rows());
    rows.insertVerifier(
        next.clinic(), next.number(), new LedgerVerifierRow(growth.rows().size(), key.line()));
  }
}

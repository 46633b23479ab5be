package evenside.ledger;

import evenside.merkle.TreeHead;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.VerifierKey;
import evenside.store.ledger.LedgerVerifierRow;
import java.util.List;
import java.util.Optional;

/** Tells whether a recounted ledger still is what was signed. */
final class SignedHeads {
  private final String origin;
  private final List<VerifierKey> keys;

  SignedHeads(String origin, List<LedgerVerifierRow> keys) {
    this.origin = origin;
    this.keys = keys.stream().map(row -> VerifierKey.parse(row.line())).toList();
  }

  /**
   * Reads a checkpoint that was kept.
   *
   * @param where it was kept, for the message
   * @throws LedgerRefusal if it is not this ledger's
   */
  TreeHead head(SignedNote note, String where) {
    Checkpoint checkpoint = Checkpoint.parse(note.text());
    if (!checkpoint.origin().equals(origin)) {
      throw new LedgerRefusal(
          "the checkpoint in the %s is of the ledger %s".formatted(where, checkpoint.origin()));
    }
    if (keys.stream().noneMatch(note::isSignedBy)) {
      throw new LedgerRefusal(
          "the checkpoint of size %d in the %s is not signed by a key of this ledger"
              .formatted(checkpoint.head().size(), where));
    }
    return checkpoint.head();
  }

  /**
   * Demands that the ledger holds what was signed.
   *
   * @throws LedgerRefusal if it has fewer entries, or others
   */
  void demand(Recount recount, TreeHead signed, String where) {
    if (signed.size() == 0) {
      return;
    }
    Optional<TreeHead> counted = recount.head(signed.size());
    if (counted.isEmpty()) {
      throw new LedgerRefusal(
          "the database is behind: it has %d entries, the checkpoint in the %s covers %d"
              .formatted(recount.frontier().size(), where, signed.size()));
    }
    if (!counted.get().equals(signed)) {
      throw new LedgerRefusal(
          "the first %d entries are not those of the checkpoint in the %s"
              .formatted(signed.size(), where));
    }
  }
}

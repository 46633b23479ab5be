package evenside.ledger;

/** A look-up met an entry that no checkpoint in the table covers yet; see {@link Ledger#signed}. */
final class Unsigned extends LedgerRefusal {
  Unsigned() {
    super("the newest entries are not signed yet");
  }
}

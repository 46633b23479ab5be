package evenside.ledger;

import evenside.store.database.StoreException;

/**
 * The ledger takes no entries, so nothing that belongs into it can be recorded. Reading goes on.
 */
public sealed class LedgerRefusal extends StoreException permits Unsigned {
  LedgerRefusal(String message) {
    super(message);
  }

  LedgerRefusal(String message, Throwable cause) {
    super(message, cause);
  }
}

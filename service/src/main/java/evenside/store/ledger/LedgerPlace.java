package evenside.store.ledger;

/**
 * Where an entry is.
 *
 * @param ledger number of the clinic's ledger
 * @param index its place in it
 */
public record LedgerPlace(int ledger, long index) {}

package evenside.store.ledger;

/**
 * A key of a ledger.
 *
 * @param fromSize it signs from the checkpoint of this size on
 * @param line its verifier-key line
 */
public record LedgerVerifierRow(long fromSize, String line) {}

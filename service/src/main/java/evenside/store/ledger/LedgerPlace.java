package evenside.store.ledger;

/**
 * Where an entry is.
 *
 * @param ledger number of the clinic's ledger that has it
 * @param index its index there
 * @param entry its bytes
 */
@SuppressWarnings("ArrayRecordComponent") // Never compared.
public record LedgerPlace(int ledger, long index, byte[] entry) {}

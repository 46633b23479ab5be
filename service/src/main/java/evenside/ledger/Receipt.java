package evenside.ledger;

/**
 * What a sender keeps to hold the service to its word: where the record is in the ledger, and a
 * signed head that covers it. Whoever holds a receipt is a witness.
 *
 * @param index index of its entry
 * @param checkpoint signed checkpoint of a size larger than the index, as text
 */
public record Receipt(long index, String checkpoint) {}

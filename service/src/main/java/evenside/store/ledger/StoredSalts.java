package evenside.store.ledger;

import java.util.Optional;

/**
 * The salts of an entry's commitments.
 *
 * @param document of its document
 * @param inputs of its inputs, where it has some
 */
@SuppressWarnings({"ArrayRecordComponent"}) // Never compared.
public record StoredSalts(byte[] document, Optional<byte[]> inputs) {}

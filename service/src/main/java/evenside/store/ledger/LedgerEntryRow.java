package evenside.store.ledger;

import java.util.Optional;
import java.util.UUID;

/**
 * One entry of a ledger.
 *
 * @param index its place, from 0
 * @param entry its bytes
 * @param nodes hashes of the subtrees it completes, its own first
 * @param entryId id of the record
 * @param refersTo id of the record it is about
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash, never by equals.
public record LedgerEntryRow(
    long index, byte[] entry, byte[] nodes, UUID entryId, Optional<UUID> refersTo) {}

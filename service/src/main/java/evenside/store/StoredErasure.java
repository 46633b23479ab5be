package evenside.store;

import java.time.Instant;
import java.util.UUID;

/**
 * What was erased and why; nothing of whom.
 *
 * @param id id of the erasure
 * @param erasedAt when
 * @param document the bytes as served; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredErasure(UUID id, Instant erasedAt, byte[] document) {
  /** Where the erasure stands in a list. */
  public Position position() {
    return new Position(erasedAt, id);
  }
}

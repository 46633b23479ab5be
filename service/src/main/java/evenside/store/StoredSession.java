package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * One recorded entry of a training record.
 *
 * @param clinic the clinic it belongs to
 * @param id id given by the service
 * @param caseId the case
 * @param recordId the sender's own id, unique in the clinic
 * @param contentSha256 hash of the content as sent, hexadecimal; tells equal content
 * @param performedAt when it was; ordered to the microsecond
 * @param receivedAt when it was stored; kept to the microsecond
 * @param flagged true if it is to be looked at however old it is
 * @param document the bytes as served; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredSession(
    String clinic,
    UUID id,
    String caseId,
    Optional<String> recordId,
    String contentSha256,
    Instant performedAt,
    Instant receivedAt,
    boolean flagged,
    byte[] document)
    implements SentRecord {
  /** Cuts the times to what the databases keep. */
  public StoredSession {
    performedAt = performedAt.truncatedTo(MICROS);
    receivedAt = receivedAt.truncatedTo(MICROS);
  }

  /**
   * Where the entry stands in its case's list.
   *
   * @return its position, to go on from
   */
  public Position position() {
    return new Position(performedAt, id);
  }
}

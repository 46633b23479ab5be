package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * One recorded battery.
 *
 * @param clinic the clinic it belongs to
 * @param id id given by the service
 * @param caseId the case
 * @param recordId the sender's own id, unique in the clinic
 * @param contentSha256 hash of the content as sent, hexadecimal; tells equal content
 * @param performedAt when the tests were done; ordered to the microsecond
 * @param receivedAt when it was stored; kept to the microsecond
 * @param document the bytes as served; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredBattery(
    String clinic,
    UUID id,
    String caseId,
    Optional<String> recordId,
    String contentSha256,
    Instant performedAt,
    Instant receivedAt,
    byte[] document)
    implements SentRecord {
  /** Cuts the times to what the databases keep. */
  public StoredBattery {
    performedAt = performedAt.truncatedTo(MICROS);
    receivedAt = receivedAt.truncatedTo(MICROS);
  }

  /**
   * Where the battery stands in its case's list.
   *
   * @return its position, to go on from
   */
  public Position position() {
    return new Position(performedAt, id);
  }
}

package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;
import java.util.UUID;

/**
 * One plan that a clinician adopted.
 *
 * @param clinic the clinic it belongs to
 * @param id id given by the service
 * @param caseId the case
 * @param milestone the gate it works towards
 * @param adoptedAt when it was recorded; kept to the microsecond
 * @param document the bytes as served; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredPlan(
    String clinic, UUID id, String caseId, String milestone, Instant adoptedAt, byte[] document) {
  /** Cuts the time to what the databases keep. */
  public StoredPlan {
    adoptedAt = adoptedAt.truncatedTo(MICROS);
  }

  /**
   * Where the plan stands in a list.
   *
   * @return its position, to go on from
   */
  public Position position() {
    return new Position(adoptedAt, id);
  }
}

package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;
import java.util.UUID;

/**
 * A clinician's statement on a decision.
 *
 * @param clinic the clinic it belongs to
 * @param id id given by the service
 * @param decisionId the decision
 * @param caseId the case of the decision
 * @param statement cleared, not-cleared or deferred
 * @param clinician reference of the clinician in the clinic's own system
 * @param differs whether it says other than the outcome of the decision
 * @param determinedAt when it was recorded; kept to the microsecond
 * @param document the bytes as served; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredDetermination(
    String clinic,
    UUID id,
    UUID decisionId,
    String caseId,
    String statement,
    String clinician,
    boolean differs,
    Instant determinedAt,
    byte[] document) {
  /** Cuts the time to what the databases keep. */
  public StoredDetermination {
    determinedAt = determinedAt.truncatedTo(MICROS);
  }
}

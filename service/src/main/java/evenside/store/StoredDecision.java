package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One recorded decision.
 *
 * @param clinic the clinic it belongs to
 * @param id id given by the service
 * @param caseId the case
 * @param criteriaSet id of the criteria set
 * @param criteriaVersion its version
 * @param criteriaSha256 hash of the criteria set's bytes, hexadecimal
 * @param milestone the gate it was decided for
 * @param outcome met, not-met or undetermined
 * @param asOf the date decided for
 * @param decidedAt when it was recorded; kept to the microsecond
 * @param document the bytes as served; not to be changed
 * @param inputs the bytes of everything that went in; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredDecision(
    String clinic,
    UUID id,
    String caseId,
    String criteriaSet,
    String criteriaVersion,
    String criteriaSha256,
    String milestone,
    String outcome,
    LocalDate asOf,
    Instant decidedAt,
    byte[] document,
    byte[] inputs) {
  /** Cuts the time to what the databases keep. */
  public StoredDecision {
    decidedAt = decidedAt.truncatedTo(MICROS);
  }

  /**
   * Where the decision stands in a list.
   *
   * @return its position, to go on from
   */
  public Position position() {
    return new Position(decidedAt, id);
  }
}

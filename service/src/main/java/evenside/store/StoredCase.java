package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;

/**
 * One revision of a case.
 *
 * @param clinic the clinic it belongs to
 * @param caseId id chosen by the sender
 * @param revision 1 for the first, one more for each change
 * @param receivedAt when it was stored; kept to the microsecond
 * @param sha256 hash of the document, hexadecimal
 * @param document the bytes as served; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredCase(
    String clinic,
    String caseId,
    int revision,
    Instant receivedAt,
    String sha256,
    byte[] document) {
  /** Cuts the time to what the databases keep. */
  public StoredCase {
    receivedAt = receivedAt.truncatedTo(MICROS);
  }
}

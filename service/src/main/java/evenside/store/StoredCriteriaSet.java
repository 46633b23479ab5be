package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;

/**
 * A version of a clinic's own criteria set.
 *
 * @param clinic the clinic it belongs to
 * @param id id of the set
 * @param version its version; never changes once there
 * @param sha256 hash of the document, hexadecimal
 * @param document the bytes as served; not to be changed
 * @param publishedAt when; kept to the microsecond
 */
@SuppressWarnings("ArrayRecordComponent") // Compared by hash or by bytes, never by equals.
public record StoredCriteriaSet(
    String clinic, String id, String version, String sha256, byte[] document, Instant publishedAt) {
  /** Cuts the time to what the databases keep. */
  public StoredCriteriaSet {
    publishedAt = publishedAt.truncatedTo(MICROS);
  }
}

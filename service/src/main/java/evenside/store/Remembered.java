package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;

/**
 * A request that was answered, so that a repeat gets the same answer and makes no second record.
 *
 * @param clinic the clinic whose key it is
 * @param key the idempotency key
 * @param fingerprint hash of the request, hexadecimal; tells a repeat from a key used twice
 * @param kind what was recorded, such as {@code battery}
 * @param recordId id of the record that was made
 * @param createdAt when; kept to the microsecond
 */
public record Remembered(
    String clinic,
    String key,
    String fingerprint,
    String kind,
    String recordId,
    Instant createdAt) {
  /** Cuts the time to what the databases keep. */
  public Remembered {
    createdAt = createdAt.truncatedTo(MICROS);
  }
}

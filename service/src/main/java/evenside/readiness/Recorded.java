package evenside.readiness;

import evenside.document.Document;

/**
 * A record that was made, or was there already.
 *
 * @param id identifier of the record
 * @param document its bytes
 * @param novelty what the request did
 */
public record Recorded(String id, Document document, Novelty novelty) {

  /** What a request to record did. */
  public enum Novelty {
    /** A new record. */
    CREATED,
    /** A new revision of a record. */
    CHANGED,
    /** The same content was there already. */
    UNCHANGED,
    /** The answer to an earlier request with the same idempotency key. */
    REPLAYED
  }
}

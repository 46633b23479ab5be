package evenside.readiness.recording;

import evenside.document.Document;
import evenside.ledger.Receipt;
import java.util.Optional;

/**
 * A record that was made, or was there already.
 *
 * @param id identifier of the record
 * @param document its bytes
 * @param novelty what the request did
 * @param receipt where the ledger has it; empty for a record that does not go there, or if it is
 *     off
 */
public record Recorded(String id, Document document, Novelty novelty, Optional<Receipt> receipt)
    implements Recording.Prepared {
  /** A record without a place in the ledger, so far. */
  public Recorded(String id, Document document, Novelty novelty) {
    this(id, document, novelty, Optional.empty());
  }

  /** The same with its place in the ledger. */
  public Recorded with(Optional<Receipt> other) {
    return new Recorded(id, document, novelty, other);
  }

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

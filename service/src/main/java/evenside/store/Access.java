package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.Instant;
import java.util.UUID;

/**
 * One reading of a decision.
 *
 * @param id id of this row
 * @param readAt when; kept to the microsecond
 * @param reader who, as authenticated
 * @param action how, such as {@code read} or {@code evidence}
 * @param decisionId which decision
 */
public record Access(UUID id, Instant readAt, String reader, String action, UUID decisionId) {
  /** Cuts the time to what the databases keep. */
  public Access {
    readAt = readAt.truncatedTo(MICROS);
  }

  /** Where the row stands in a list. */
  public Position position() {
    return new Position(readAt, id);
  }
}

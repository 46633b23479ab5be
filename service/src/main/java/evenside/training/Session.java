package evenside.training;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.Optional;

/**
 * One entry of the training record, as it was sent.
 *
 * @param id identifier of the record, or its place in a request
 * @param recordId the sender's own identifier
 * @param performedAt when it was, with the offset as sent
 * @param entry what it says
 */
public record Session(
    String id, Optional<String> recordId, OffsetDateTime performedAt, Entry entry) {

  /** Its day on the clock of the sender. */
  public LocalDate performedOn() {
    return performedAt.toLocalDate();
  }

  /** True if a reference names this entry, by the service's identifier or the sender's own. */
  public boolean isCalled(String reference) {
    return id.equals(reference) || recordId.equals(Optional.of(reference));
  }

  /** The training in it, if it is one. */
  public Optional<Entry.Training> training() {
    return entry instanceof Entry.Training training ? Optional.of(training) : Optional.empty();
  }
}

package evenside.readiness;

import evenside.readiness.recording.Records;
import evenside.store.Writing;
import evenside.store.work.Outbox;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;

/**
 * The queue of what receivers are still to be told. An announcement is queued in the transaction of
 * its decision, so neither is there without the other; it leaves the queue when it was delivered,
 * so it may be sent twice and is never forgotten. Those of one case come in order.
 */
public final class Announcements {
  private final Records records;

  Announcements(Records records) {
    this.records = records;
  }

  /**
   * Takes the next announcement of a clinic that is due. Nobody else takes it until the time given
   * is over.
   *
   * @param lease how long the caller may take to send it
   */
  public Optional<Announcement> take(String clinic, Duration lease) {
    Instant now = records.now();
    return records
        .store()
        .writeInTurn(writing -> writing.outbox().take(clinic, now, now.plus(lease)))
        .map(event -> Announcement.of(event, records.schemaVersion()));
  }

  /** Ends one that was delivered. */
  public void delivered(Announcement announcement) {
    change(outbox -> outbox.delivered(announcement.event()));
  }

  /** Keeps one that could not be delivered for later. */
  public void postpone(Announcement announcement, Duration pause) {
    change(outbox -> outbox.postpone(announcement.event(), records.now().plus(pause)));
  }

  /**
   * Gives up the announcements of a clinic that are too old or too many.
   *
   * @param age of decisions that are not worth telling any more
   * @param most so many of the newest stay
   * @return the decisions that nobody was told of, oldest first
   */
  public List<UUID> giveUp(String clinic, Duration age, int most) {
    Instant before = records.now().minus(age);
    return records.store().writeInTurn(writing -> writing.outbox().giveUp(clinic, before, most));
  }

  /** How many announcements of a clinic wait. */
  public long waiting(String clinic) {
    return records.store().writeInTurn(writing -> writing.outbox().waiting(clinic));
  }

  private void change(Consumer<Outbox> change) {
    records
        .store()
        .writeInTurn(
            (Writing writing) -> {
              change.accept(writing.outbox());
              return true;
            });
  }
}

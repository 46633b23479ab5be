package evenside.store.work;

import evenside.store.database.Instants;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Update;

/**
 * The queue of what receivers are still to be told. Its rows are no record, so they are changed and
 * removed; they are added in the transaction of the record they are about.
 *
 * <p>To be used in {@link evenside.store.Store#writeInTurn}: several processes may look for the
 * same row.
 */
public final class Outbox {
  /** The newest position that has so many after it; 0 if there are not so many. */
  private static final String TOO_MANY =
      """
      select coalesce(max(position), 0) from (
        select position from webhook_event where clinic = :clinic
        order by position desc limit 1 offset :most) newest
      """;

  private final Handle handle;

  /** Works in the transaction of the handle. */
  public Outbox(Handle handle) {
    this.handle = handle;
  }

  /** Adds an event, due at once. */
  public void add(String clinic, UUID id, String caseId, UUID decisionId, Instant decidedAt) {
    update(
            """
            insert into webhook_event
              (clinic, id, case_id, decision_id, decided_at, attempts, due_at)
            values (:clinic, :id, :case_id, :decision_id, :decided_at, 0, :decided_at)
            """,
            clinic)
        .bind("id", id)
        .bind("case_id", caseId)
        .bind("decision_id", decisionId)
        .bind("decided_at", decidedAt)
        .execute();
  }

  /**
   * Takes the first event of a clinic that is due and comes first in its case, so that nobody else
   * takes it meanwhile. Whoever took it and died lets it go when the time given is over.
   *
   * @param now the time
   * @param until end of the time given
   * @return the event, this attempt counted; empty if none is due
   */
  public Optional<OutboxEvent> take(String clinic, Instant now, Instant until) {
    Optional<OutboxEvent> first =
        handle
            .createQuery(
                """
                select clinic, id, position, case_id, decision_id, decided_at, attempts + 1 as attempts
                from webhook_event e
                where clinic = :clinic and due_at <= :now and not exists (
                  select 1 from webhook_event earlier
                  where earlier.clinic = e.clinic and earlier.case_id = e.case_id
                    and earlier.position < e.position)
                order by position limit 1 for update skip locked
                """)
            .bind("clinic", clinic)
            .bind("now", now)
            .map((row, context) -> event(row))
            .findOne();
    first.ifPresent(
        event ->
            update(
                    """
                    update webhook_event set attempts = attempts + 1, due_at = :until
                    where clinic = :clinic and id = :id
                    """,
                    clinic)
                .bind("id", event.id())
                .bind("until", until)
                .execute());
    return first;
  }

  /** Removes an event that was delivered. */
  public void delivered(OutboxEvent event) {
    update("delete from webhook_event where clinic = :clinic and id = :id", event.clinic())
        .bind("id", event.id())
        .execute();
  }

  /** Lets an event wait that could not be delivered. */
  public void postpone(OutboxEvent event, Instant until) {
    update(
            "update webhook_event set due_at = :until where clinic = :clinic and id = :id",
            event.clinic())
        .bind("id", event.id())
        .bind("until", until)
        .execute();
  }

  /**
   * Removes what is not worth telling any more.
   *
   * @param before events of decisions made before this time go
   * @param most so many of the newest stay
   * @return the decisions that nobody was told of
   */
  public List<UUID> giveUp(String clinic, Instant before, int most) {
    List<UUID> lost =
        handle
            .createQuery(
                """
                select decision_id from webhook_event
                where clinic = :clinic and (decided_at < :before or position <= (%s))
                order by position
                """
                    .formatted(TOO_MANY))
            .bind("clinic", clinic)
            .bind("before", before)
            .bind("most", most)
            .map((row, context) -> row.getObject(1, UUID.class))
            .list();
    for (UUID decision : lost) {
      update(
              "delete from webhook_event where clinic = :clinic and decision_id = :decision_id",
              clinic)
          .bind("decision_id", decision)
          .execute();
    }
    return lost;
  }

  /** How many events of a clinic wait. */
  public long waiting(String clinic) {
    return handle
        .createQuery("select count(*) from webhook_event where clinic = :clinic")
        .bind("clinic", clinic)
        .mapTo(Long.class)
        .one();
  }

  private Update update(String sql, String clinic) {
    return handle.createUpdate(sql).bind("clinic", clinic);
  }

  private static OutboxEvent event(ResultSet row) throws SQLException {
    return new OutboxEvent(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getLong("position"),
        row.getString("case_id"),
        row.getObject("decision_id", UUID.class),
        Instants.read(row, "decided_at"),
        row.getInt("attempts"));
  }
}

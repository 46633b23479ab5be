package evenside.store.evidence;

import evenside.store.database.Instants;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** Looks up what the batteries of one case are evidence for. Valid inside one transaction. */
public final class EvidenceSearch {
  private static final String COLUMNS =
      """
      battery_id, evidence_index.performed_at, measure, aspect, mode, speed, angle, context, amount, unit, way,
        performed_on
      """;

  private final Handle handle;
  private final String clinic;
  private final String caseId;

  /** Works in the transaction of the handle. */
  public EvidenceSearch(Handle handle, String clinic, String caseId) {
    this.handle = handle;
    this.clinic = clinic;
    this.caseId = caseId;
  }

  /**
   * The newest evidence. A measure that was planned and not performed counts as the newest too.
   *
   * @param asked which evidence
   * @return every row of the newest time that fits; several where one battery holds several, or two
   *     batteries have the same time; empty where there is none
   */
  public List<FoundEvidence> newest(EvidenceQuery asked) {
    String fitting = fitting(asked);
    String notBefore = asked.notBefore().isPresent() ? " and performed_at >= :not_before" : "";
    // The inner select walks evidence_newest from the newest row down to the first that fits. The
    // outer one must not name the bounds again: beside an equality, H2 would walk all between them.
    Query query =
        handle
            .createQuery(
                """
                select %2$s
                from evidence_index
                where %1$s and performed_at = (
                  select performed_at from evidence_index
                  where %1$s and performed_at <= :not_after%3$s
                  order by clinic, case_id, measure, performed_at desc, battery_id desc limit 1)
                order by battery_id desc, ordinal
                """
                    .formatted(fitting, COLUMNS, notBefore))
            .bind("clinic", clinic)
            .bind("case_id", caseId)
            .bind("measure", asked.measure())
            .bind("aspect", asked.aspect())
            .bind("not_performed", EvidenceRow.NOT_PERFORMED)
            .bind("left_out", EvidenceRow.notPerformed(asked.aspect()))
            .bind("not_after", asked.notAfter());
    if (!asked.modes().isEmpty()) {
      query.bindList("modes", asked.modes());
    }
    asked.speed().ifPresent(speed -> query.bind("speed", speed));
    asked.angle().ifPresent(angle -> query.bind("angle", angle));
    asked.context().ifPresent(context -> query.bind("context", context));
    asked.notBefore().ifPresent(oldest -> query.bind("not_before", oldest));
    return query.map((row, context) -> evidence(row)).list();
  }

  /** All that the batteries of one time are evidence for, without those that another replaced. */
  public List<FoundEvidence> at(Instant time) {
    // Joined, as H2 would read all rows of the clinic for "in".
    return handle
        .createQuery(
            """
            select %s
            from battery join evidence_index
              on evidence_index.clinic = battery.clinic and battery_id = battery.id
            where battery.clinic = :clinic and battery.case_id = :case_id
              and battery.performed_at = :at
              and not exists (select 1 from correction where correction.clinic = :clinic
                and correction.replaces = battery.id)
            order by battery_id desc, ordinal
            """
                .formatted(COLUMNS))
        .bind("clinic", clinic)
        .bind("case_id", caseId)
        .bind("at", time)
        .map((row, context) -> evidence(row))
        .list();
  }

  /**
   * Which of some measures the case has anything of, be it that they were not performed: one look
   * into the index for each, however much there is of it, and all in one go.
   */
  public Set<String> filed(Collection<String> measures) {
    if (measures.isEmpty()) {
      return Set.of();
    }
    return Set.copyOf(
        handle
            .createQuery(
                """
                select asked.measure from unnest(cast(:measures as varchar array)) as asked (measure)
                where exists (select 1 from evidence_index filed where filed.clinic = :clinic
                  and filed.case_id = :case_id and filed.measure = asked.measure)
                """)
            .bind("clinic", clinic)
            .bind("case_id", caseId)
            .bindArray("measures", String.class, measures)
            .mapTo(String.class)
            .list());
  }

  /**
   * The newest rows that a measure is filed under, numbers and gaps alike, from batteries that no
   * other has replaced.
   *
   * @param measure code of the measure
   * @param notAfter newest time allowed, inclusive
   * @param limit most to give, at least 1
   * @return the rows, newest first
   */
  public List<FoundEvidence> series(String measure, Instant notAfter, int limit) {
    return handle
        .createQuery(
            """
            select %s
            from evidence_index
            where clinic = :clinic and case_id = :case_id and measure = :measure
              and performed_at <= :not_after
              and not exists (select 1 from correction where correction.clinic = :clinic
                and correction.replaces = evidence_index.battery_id)
            order by clinic, case_id, measure, performed_at desc, battery_id desc
            limit :limit
            """
                .formatted(COLUMNS))
        .bind("clinic", clinic)
        .bind("case_id", caseId)
        .bind("measure", measure)
        .bind("not_after", notAfter)
        .bind("limit", limit)
        .map((row, context) -> evidence(row))
        .list();
  }

  /**
   * Comes from a battery that no other has replaced, and fits the question, or says of any way of
   * testing that it was not performed: that is what the criteria look at too.
   */
  private static String fitting(EvidenceQuery asked) {
    StringBuilder asAsked = new StringBuilder("aspect = :aspect");
    if (!asked.modes().isEmpty()) {
      asAsked.append(" and mode in (<modes>)");
    }
    if (asked.speed().isPresent()) {
      asAsked.append(" and speed = :speed");
    }
    if (asked.angle().isPresent()) {
      asAsked.append(" and angle = :angle");
    }
    if (asked.context().isPresent()) {
      asAsked.append(" and context = :context");
    }
    return """
        clinic = :clinic and case_id = :case_id and measure = :measure
        and (aspect = :not_performed or aspect = :left_out or (%s))
        and not exists (select 1 from correction where correction.clinic = :clinic
          and correction.replaces = evidence_index.battery_id)
        """
        .formatted(asAsked);
  }

  private static FoundEvidence evidence(ResultSet row) throws SQLException {
    return new FoundEvidence(
        row.getObject("battery_id", UUID.class),
        Instants.read(row, "performed_at"),
        new EvidenceRow(
            row.getString("measure"),
            row.getString("aspect"),
            Optional.ofNullable(row.getString("mode")),
            Optional.ofNullable(row.getObject("speed", Double.class)),
            Optional.ofNullable(row.getObject("angle", Double.class)),
            Optional.ofNullable(row.getString("context")),
            number(row)));
  }

  private static Optional<FiledNumber> number(ResultSet row) throws SQLException {
    Double amount = row.getObject("amount", Double.class);
    return amount == null
        ? Optional.empty()
        : Optional.of(
            new FiledNumber(
                amount,
                row.getString("unit"),
                row.getString("way"),
                row.getObject("performed_on", LocalDate.class)));
  }
}

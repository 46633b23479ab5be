package evenside.store;

import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** Finds the newest evidence. */
final class EvidenceSearch {
  private EvidenceSearch() {}

  static List<FoundEvidence> newest(
      Handle handle, String clinic, String caseId, EvidenceQuery asked) {
    String fitting = fitting(asked);
    // The inner select walks evidence_newest from the newest row down to the first that fits.
    Query query =
        handle
            .createQuery(
                """
                select battery_id, performed_at, measure, aspect, mode, speed, angle, context
                from evidence_index
                where %1$s and performed_at = (
                  select performed_at from evidence_index where %1$s
                  order by clinic, case_id, measure, performed_at desc, battery_id desc limit 1)
                order by battery_id desc, ordinal
                """
                    .formatted(fitting))
            .bind("clinic", clinic)
            .bind("case_id", caseId)
            .bind("measure", asked.measure())
            .bind("aspect", asked.aspect())
            .bind("not_performed", EvidenceRow.NOT_PERFORMED)
            .bind("not_after", asked.notAfter());
    if (!asked.modes().isEmpty()) {
      query.bindList("modes", asked.modes());
    }
    asked.speed().ifPresent(speed -> query.bind("speed", speed));
    asked.angle().ifPresent(angle -> query.bind("angle", angle));
    asked.context().ifPresent(context -> query.bind("context", context));
    asked.notBefore().ifPresent(oldest -> query.bind("not_before", oldest));
    return query.map((row, context) -> Columns.evidence(row)).list();
  }

  private static String fitting(EvidenceQuery asked) {
    StringBuilder where =
        new StringBuilder(
            """
            clinic = :clinic and case_id = :case_id and measure = :measure
            and performed_at <= :not_after and (aspect = :aspect or aspect = :not_performed)
            """);
    if (asked.notBefore().isPresent()) {
      where.append(" and performed_at >= :not_before");
    }
    if (!asked.modes().isEmpty()) {
      where.append(unlessUnsaid("mode", "mode in (<modes>)"));
    }
    if (asked.speed().isPresent()) {
      where.append(unlessUnsaid("speed", "speed = :speed"));
    }
    if (asked.angle().isPresent()) {
      where.append(unlessUnsaid("angle", "angle = :angle"));
    }
    if (asked.context().isPresent()) {
      where.append(unlessUnsaid("context", "context = :context"));
    }
    return where.toString();
  }

  /**
   * A measure not performed, with no word on how it would have been, was not performed in any way.
   */
  private static String unlessUnsaid(String column, String condition) {
    return " and (%s or (aspect = :not_performed and %s is null))".formatted(condition, column);
  }
}

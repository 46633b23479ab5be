package evenside.store;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** Finds decisions. */
final class DecisionSearch {
  private static final String SELECT =
      """
      select clinic, id, case_id, criteria_set, criteria_version, criteria_sha256, milestone,
        outcome, as_of, decided_at, document, inputs
      from decision where clinic = :clinic
      """;

  private DecisionSearch() {}

  static Optional<StoredDecision> byId(Handle handle, String clinic, UUID id) {
    return handle
        .createQuery(SELECT + " and id = :id")
        .bind("clinic", clinic)
        .bind("id", id)
        .map((row, context) -> Columns.decision(row))
        .findOne();
  }

  static List<StoredDecision> page(
      Handle handle, String clinic, DecisionFilter filter, Optional<Position> after, int limit) {
    Map<String, String> equal = equal(filter);
    StringBuilder sql = new StringBuilder(SELECT);
    equal.keySet().forEach(column -> sql.append(" and %1$s = :%1$s".formatted(column)));
    if (filter.decidedFrom().isPresent()) {
      sql.append(" and decided_at >= :decided_from");
    }
    if (filter.decidedBefore().isPresent()) {
      sql.append(" and decided_at < :decided_before");
    }
    if (filter.subject().isPresent()) {
      sql.append(
          " and case_id in (select case_id from case_subject"
              + " where clinic = :clinic and subject = :subject)");
    }
    if (filter.clinician().isPresent() || filter.differing().isPresent()) {
      sql.append(determined(filter));
    }
    if (after.isPresent()) {
      sql.append(" and (decided_at, id) < (:after_at, :after_id)");
    }
    Query query =
        handle
            .createQuery(sql + order(equal) + " limit :limit")
            .bind("clinic", clinic)
            .bind("limit", limit)
            .bindMap(equal);
    filter.decidedFrom().ifPresent(from -> query.bind("decided_from", from));
    filter.decidedBefore().ifPresent(before -> query.bind("decided_before", before));
    filter.subject().ifPresent(subject -> query.bind("subject", subject));
    filter.clinician().ifPresent(clinician -> query.bind("clinician", clinician));
    filter.differing().ifPresent(differs -> query.bind("differs", differs));
    after.ifPresent(p -> query.bind("after_at", p.at()).bind("after_id", p.id()));
    return query.map((row, context) -> Columns.decision(row)).list();
  }

  /** One determination on it fits all that is asked of determinations. */
  private static String determined(DecisionFilter filter) {
    String clinician = filter.clinician().isPresent() ? " and clinician = :clinician" : "";
    String differs = filter.differing().isPresent() ? " and differs = :differs" : "";
    return " and id in (select decision_id from determination where clinic = :clinic"
        + clinician
        + differs
        + ")";
  }

  /** The columns asked for one value, those with the fewest rows per value first. */
  private static Map<String, String> equal(DecisionFilter filter) {
    Map<String, String> equal = new LinkedHashMap<>();
    filter.caseId().ifPresent(value -> equal.put("case_id", value));
    filter.criteriaSet().ifPresent(value -> equal.put("criteria_set", value));
    filter.milestone().ifPresent(value -> equal.put("milestone", value));
    filter.outcome().ifPresent(value -> equal.put("outcome", value));
    filter.criteriaVersion().ifPresent(value -> equal.put("criteria_version", value));
    return equal;
  }

  /**
   * Newest first. The fixed columns of the fitting index are named too: only then does H2 see that
   * the index has this order and read no more rows than the page holds.
   */
  private static String order(Map<String, String> equal) {
    List<String> columns = new ArrayList<>(List.of("clinic"));
    equal.keySet().stream()
        .filter(column -> !column.equals("criteria_version"))
        .findFirst()
        .ifPresent(columns::add);
    return " order by " + String.join(", ", columns) + ", decided_at desc, id desc";
  }
}

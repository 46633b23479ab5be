package evenside.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** Finds decisions. */
final class DecisionSearch {
  /** Decisions that are looked up one by one, where no index has them in the order of time. */
  static final int FEW = 2000;

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
    if (filter.subject().isPresent()) {
      return aboutPerson(handle, clinic, filter, after, limit);
    }
    if (asksOfDeterminations(filter)) {
      List<UUID> determined = determined(handle, clinic, filter);
      if (determined.size() <= FEW) {
        return among(handle, clinic, Set.copyOf(determined), filter, after, limit);
      }
    }
    return walk(handle, clinic, filter, after, limit);
  }

  private static boolean asksOfDeterminations(DecisionFilter filter) {
    return filter.clinician().isPresent() || filter.differing().isPresent();
  }

  /** The decision of each fitting determination; of {@link #FEW} and one, if there are more. */
  private static List<UUID> determined(Handle handle, String clinic, DecisionFilter filter) {
    Query query =
        handle
            .createQuery(determinations(filter) + " limit :limit")
            .bind("clinic", clinic)
            .bind("limit", FEW + 1);
    return ofDeterminations(query, filter).mapTo(UUID.class).list();
  }

  /** The few are put in order by their times alone; only those of the page are read. */
  private static List<StoredDecision> among(
      Handle handle,
      String clinic,
      Set<UUID> few,
      DecisionFilter filter,
      Optional<Position> after,
      int limit) {
    // An outer join, as H2 would otherwise begin with all decisions of the clinic; and a column in
    // no
    // index of time, as it would walk one that holds all that is asked.
    String select =
        """
        select decided_at, id, criteria_sha256 from unnest(cast(:few as uuid array)) as picked (picked_id)
        left join decision on clinic = :clinic and id = picked_id where clinic = :clinic
        """;
    return query(handle, select, clinic, filter, after, limit)
        .bindArray("few", UUID.class, few)
        .map((row, context) -> row.getObject("id", UUID.class))
        .stream()
        .flatMap(id -> byId(handle, clinic, id).stream())
        .toList();
  }

  /**
   * A person has few cases, so a page of each is read; all others' decisions are not passed over.
   */
  private static List<StoredDecision> aboutPerson(
      Handle handle, String clinic, DecisionFilter filter, Optional<Position> after, int limit) {
    return cases(handle, clinic, filter.subject().orElseThrow()).stream()
        .filter(caseId -> filter.caseId().isEmpty() || filter.caseId().get().equals(caseId))
        .flatMap(caseId -> walk(handle, clinic, filter.onCase(caseId), after, limit).stream())
        .sorted(Comparator.comparing(StoredDecision::position, Position.NEWEST_FIRST))
        .limit(limit)
        .toList();
  }

  private static List<String> cases(Handle handle, String clinic, String subject) {
    return handle
        .createQuery(
            "select distinct case_id from case_subject"
                + " where clinic = :clinic and subject = :subject")
        .bind("clinic", clinic)
        .bind("subject", subject)
        .mapTo(String.class)
        .list();
  }

  private static List<StoredDecision> walk(
      Handle handle, String clinic, DecisionFilter filter, Optional<Position> after, int limit) {
    // One determination on it fits all that is asked of determinations.
    String select =
        asksOfDeterminations(filter)
            ? SELECT + " and id in (" + determinations(filter) + ")"
            : SELECT;
    Query query = query(handle, select, clinic, filter, after, limit);
    return ofDeterminations(query, filter).map((row, context) -> Columns.decision(row)).list();
  }

  /**
   * Decisions newest first.
   *
   * @param select that may be gone on with by further conditions
   */
  private static Query query(
      Handle handle,
      String select,
      String clinic,
      DecisionFilter filter,
      Optional<Position> after,
      int limit) {
    Map<String, String> equal = equal(filter);
    StringBuilder sql = new StringBuilder(select);
    equal.keySet().forEach(column -> sql.append(" and %1$s = :%1$s".formatted(column)));
    // A bound of time is always named: without any, H2 would read all decisions and sort them.
    sql.append(" and decided_at >= :decided_from");
    // Of two upper bounds H2 would start the walk at the later one, so the one that says more
    // stands alone: a page far down a span of time then costs what its first page does.
    Optional<Instant> before =
        filter.decidedBefore().filter(end -> after.isEmpty() || !after.get().at().isBefore(end));
    if (before.isPresent()) {
      sql.append(" and decided_at < :decided_before");
    }
    if (after.isPresent()) {
      sql.append(" and (decided_at, id) < (:after_at, :after_id)");
    }
    Query query =
        handle
            .createQuery(sql + order(equal) + " limit :limit")
            .bind("clinic", clinic)
            .bind("limit", limit)
            .bind("decided_from", filter.decidedFrom().orElse(Instant.EPOCH))
            .bindMap(equal);
    before.ifPresent(end -> query.bind("decided_before", end));
    after.ifPresent(p -> query.bind("after_at", p.at()).bind("after_id", p.id()));
    return query;
  }

  private static String determinations(DecisionFilter filter) {
    String clinician = filter.clinician().isPresent() ? " and clinician = :clinician" : "";
    String differs = filter.differing().isPresent() ? " and differs = :differs" : "";
    return "select decision_id from determination where clinic = :clinic" + clinician + differs;
  }

  private static Query ofDeterminations(Query query, DecisionFilter filter) {
    filter.clinician().ifPresent(clinician -> query.bind("clinician", clinician));
    filter.differing().ifPresent(differs -> query.bind("differs", differs));
    return query;
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

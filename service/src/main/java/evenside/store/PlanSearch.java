package evenside.store;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** Finds adopted plans. */
public final class PlanSearch {
  private static final String SELECT =
      "select clinic, id, case_id, milestone, adopted_at, document"
          + " from plan where clinic = :clinic";

  private static final String ORDER =
      " order by clinic, case_id, adopted_at desc, id desc limit :limit";

  private final Handle handle;
  private final String clinic;

  PlanSearch(Handle handle, String clinic) {
    this.handle = handle;
    this.clinic = clinic;
  }

  /**
   * A plan.
   *
   * @param id its id
   * @return the plan; empty where there is none
   */
  public Optional<StoredPlan> byId(UUID id) {
    return query(SELECT + " and id = :id")
        .bind("id", id)
        .map((row, context) -> Columns.plan(row))
        .findOne();
  }

  /**
   * A page of a case's plans, newest first.
   *
   * @param caseId the case
   * @param after the last one of the page before
   * @param limit most to give, at least 1
   * @return the plans
   */
  public List<StoredPlan> ofCase(String caseId, Optional<Position> after, int limit) {
    String older = after.isPresent() ? " and (adopted_at, id) < (:after_at, :after_id)" : "";
    Query query =
        query(SELECT + " and case_id = :case_id" + older + ORDER)
            .bind("case_id", caseId)
            .bind("limit", Reading.atLeastOne(limit));
    after.ifPresent(p -> query.bind("after_at", p.at()).bind("after_id", p.id()));
    return query.map((row, context) -> Columns.plan(row)).list();
  }

  private Query query(String sql) {
    return handle.createQuery(sql).bind("clinic", clinic);
  }
}

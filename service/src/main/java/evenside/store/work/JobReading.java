package evenside.store.work;

import evenside.store.database.Instants;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** Looks up bulk work. Valid inside one transaction. */
public class JobReading {
  private static final String JOBS =
      "select clinic, id, client, scopes, received_at, expires_at, lines from job";

  final Handle handle;

  /** Works in the transaction of the handle. */
  public JobReading(Handle handle) {
    this.handle = handle;
  }

  /** A job; empty where the clinic has none of that id. */
  public Optional<StoredJob> job(String clinic, UUID id) {
    return of(JOBS + " where clinic = :clinic and id = :id", clinic, id)
        .map((row, context) -> job(row))
        .findOne();
  }

  /** The jobs of all clinics that have lines waiting, oldest first. */
  public List<StoredJob> unfinished(int limit) {
    return handle
        .createQuery(
            JOBS
                + " where exists (select 1 from job_line"
                + " where job_line.clinic = job.clinic and job_line.job_id = job.id)"
                + " order by received_at, id limit :limit")
        .bind("limit", limit)
        .map((row, context) -> job(row))
        .list();
  }

  /** How far a job is. */
  public JobCount count(String clinic, UUID id) {
    int waiting =
        of("select count(*) from job_line where clinic = :clinic and job_id = :id", clinic, id)
            .mapTo(Integer.class)
            .one();
    return of(
            "select count(case when status < 300 then 1 end),"
                + " count(case when status >= 300 then 1 end)"
                + " from job_result where clinic = :clinic and job_id = :id",
            clinic,
            id)
        .map((row, context) -> new JobCount(waiting, row.getInt(1), row.getInt(2)))
        .one();
  }

  /** The next lines that wait, in their order. */
  public List<JobLine> waiting(String clinic, UUID id, int limit) {
    return of(
            "select line, case_id, request from job_line"
                + " where clinic = :clinic and job_id = :id order by line limit :limit",
            clinic,
            id)
        .bind("limit", limit)
        .map(
            (row, context) ->
                new JobLine(
                    row.getInt("line"),
                    Optional.ofNullable(row.getString("case_id")),
                    row.getBytes("request")))
        .list();
  }

  /** Results in the order of their lines, those after a line. */
  public List<JobResult> results(String clinic, UUID id, int after, int limit) {
    return of(
            "select line, status, result from job_result"
                + " where clinic = :clinic and job_id = :id and line > :after"
                + " order by line limit :limit",
            clinic,
            id)
        .bind("after", after)
        .bind("limit", limit)
        .map(
            (row, context) ->
                new JobResult(row.getInt("line"), row.getInt("status"), row.getBytes("result")))
        .list();
  }

  final Query of(String sql, String clinic, UUID id) {
    return handle.createQuery(sql).bind("clinic", clinic).bind("id", id);
  }

  private static StoredJob job(ResultSet row) throws SQLException {
    return new StoredJob(
        row.getString("clinic"),
        row.getObject("id", UUID.class),
        row.getString("client"),
        row.getString("scopes"),
        Instants.read(row, "received_at"),
        Instants.read(row, "expires_at"),
        row.getInt("lines"));
  }
}

package evenside.store.work;

import evenside.store.database.Failures;
import evenside.store.database.Instants;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreConflict.Kind;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;

/** Adds bulk work and takes away what is done: these are working papers and no record. */
public final class JobWriting extends JobReading {
  private static final List<String> TABLES = List.of("job_line", "job_result", "job_turn");

  /** Works in the transaction of the handle. */
  public JobWriting(Handle handle) {
    super(handle);
  }

  /** Adds lines of a job that is still being received. */
  public void addLines(String clinic, UUID job, List<JobLine> lines) {
    PreparedBatch batch =
        handle.prepareBatch(
            "insert into job_line (clinic, job_id, line, case_id, request)"
                + " values (:clinic, :job, :line, :case_id, :request)");
    for (JobLine line : lines) {
      batch
          .bind("clinic", clinic)
          .bind("job", job)
          .bind("line", line.line())
          .bind("case_id", line.caseId())
          .bind("request", line.request())
          .add();
    }
    batch.execute();
  }

  /** Adds a job whose lines are all there; from now on it is worked at. */
  public void add(StoredJob job) {
    handle
        .createUpdate(
            "insert into job (clinic, id, client, scopes, received_at, expires_at, lines)"
                + " values (:clinic, :id, :client, :scopes, :received_at, :expires_at, :lines)")
        .bind("clinic", job.clinic())
        .bind("id", job.id())
        .bind("client", job.client())
        .bind("scopes", job.scopes())
        .bind("received_at", job.receivedAt())
        .bind("expires_at", job.expiresAt())
        .bind("lines", job.lines())
        .execute();
  }

  /**
   * Takes the next turn at a job, if nobody else has it.
   *
   * @param until when others may take it, unless this worker takes a further turn before
   * @return whether this worker has it now
   * @throws StoreConflict {@link Kind#JOB_TAKEN} if another took it at the same time
   */
  public boolean takeTurn(StoredJob job, UUID worker, Instant now, Instant until) {
    Optional<Turn> newest =
        of(
                "select turn, worker, until_at from job_turn"
                    + " where clinic = :clinic and job_id = :id order by turn desc limit 1",
                job.clinic(),
                job.id())
            .map(
                (row, context) ->
                    new Turn(
                        row.getInt("turn"),
                        row.getObject("worker", UUID.class),
                        Instants.read(row, "until_at")))
            .findOne();
    boolean free =
        newest.map(turn -> turn.worker().equals(worker) || turn.until().isBefore(now)).orElse(true);
    if (free) {
      Failures.insert(
          handle
              .createUpdate(
                  "insert into job_turn (clinic, job_id, turn, worker, until_at)"
                      + " values (:clinic, :job, :turn, :worker, :until)")
              .bind("clinic", job.clinic())
              .bind("job", job.id())
              .bind("turn", newest.map(turn -> turn.turn() + 1).orElse(1))
              .bind("worker", worker)
              .bind("until", until),
          Kind.JOB_TAKEN);
    }
    return free;
  }

  private record Turn(int turn, UUID worker, Instant until) {}

  /**
   * Whether a line still waits; if so, keeps others from removing it until this transaction ends.
   * To be asked after the case is held, as an erasure holds that first too.
   */
  public boolean holds(String clinic, UUID job, int line) {
    return handle
        .createQuery(
            "select line from job_line where clinic = :clinic and job_id = :job and line = :line"
                + " for update")
        .bind("clinic", clinic)
        .bind("job", job)
        .bind("line", line)
        .mapTo(Integer.class)
        .findOne()
        .isPresent();
  }

  /**
   * Removes lines that are done, and files what came of those that were still there: of one that
   * another process has filed, or that was erased with its case, nothing is filed.
   */
  public void finish(String clinic, UUID job, List<JobResult> results) {
    for (JobResult result : results) {
      int removed =
          handle
              .createUpdate(
                  "delete from job_line"
                      + " where clinic = :clinic and job_id = :job and line = :line")
              .bind("clinic", clinic)
              .bind("job", job)
              .bind("line", result.line())
              .execute();
      if (removed == 1) {
        file(clinic, job, result);
      }
    }
  }

  /** Files what came of a line that never waited. */
  public void file(String clinic, UUID job, JobResult result) {
    handle
        .createUpdate(
            "insert into job_result (clinic, job_id, line, status, result)"
                + " values (:clinic, :job, :line, :status, :result)")
        .bind("clinic", clinic)
        .bind("job", job)
        .bind("line", result.line())
        .bind("status", result.status())
        .bind("result", result.result())
        .execute();
  }

  /** Removes the jobs that have expired, with lines and results. */
  public int removeExpired(Instant now) {
    for (String table : TABLES) {
      handle
          .createUpdate(
              "delete from "
                  + table
                  + " where exists (select 1 from job where job.clinic = "
                  + table
                  + ".clinic and job.id = "
                  + table
                  + ".job_id and job.expires_at < :now)")
          .bind("now", now)
          .execute();
    }
    return handle
        .createUpdate("delete from job where expires_at < :now")
        .bind("now", now)
        .execute();
  }

  /**
   * Removes what was received of jobs that never were, as their bodies did not arrive whole.
   *
   * @param before jobs whose id is less, so that were begun earlier
   */
  public void removeAbandoned(UUID before) {
    for (String table : TABLES) {
      handle
          .createUpdate(
              "delete from "
                  + table
                  + " where job_id < :before and not exists (select 1 from job where job.clinic = "
                  + table
                  + ".clinic and job.id = "
                  + table
                  + ".job_id)")
          .bind("before", before)
          .execute();
    }
  }
}

package evenside.readiness;

import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.store.Reading;
import evenside.store.database.StoreConflict;
import evenside.store.work.JobCount;
import evenside.store.work.JobLine;
import evenside.store.work.JobResult;
import evenside.store.work.StoredJob;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * Bulk work that goes on after the reply: its lines wait in the store, and whichever process has
 * the turn does them in their order. What is done again after a process died is harmless, as every
 * line has an idempotency key.
 */
public final class Jobs {
  /** How long a job and its results are kept. */
  public static final Duration KEPT = Duration.ofDays(7);

  private final Records records;

  Jobs(Records records) {
    this.records = records;
  }

  /**
   * How far a job is.
   *
   * @param job the job
   * @param count its lines, by what became of them
   */
  public record Progress(StoredJob job, JobCount count) {
    /** Whether nothing is left to do. */
    public boolean done() {
      return count.waiting() == 0;
    }
  }

  /** A new id for a job that is about to be received. */
  public UUID newId() {
    return records.newId();
  }

  /**
   * Keeps lines of a job that is being received; on disk when this returns.
   *
   * @param done what came of those that were done before it became a job
   */
  public void keep(String clinic, UUID job, List<JobLine> lines, List<JobResult> done) {
    records
        .store()
        .write(
            writing -> {
              if (!lines.isEmpty()) {
                writing.jobs().addLines(clinic, job, lines);
              }
              done.forEach(result -> writing.jobs().file(clinic, job, result));
              return job;
            });
  }

  /**
   * Starts a job whose lines are all kept.
   *
   * @param client who sent it
   * @param scopes what the client may do, names between spaces
   * @param lines how many lines it has
   */
  public StoredJob start(String clinic, UUID id, String client, String scopes, int lines) {
    Instant now = records.now();
    StoredJob job = new StoredJob(clinic, id, client, scopes, now, now.plus(KEPT), lines);
    return records
        .store()
        .write(
            writing -> {
              writing.jobs().add(job);
              return job;
            });
  }

  /**
   * How far a job is.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if the clinic has no such job, or it has expired
   */
  public Progress progress(String clinic, String jobId) {
    return records
        .store()
        .read(
            reading -> {
              StoredJob job = known(reading, clinic, jobId);
              return new Progress(job, reading.jobs().count(clinic, job.id()));
            });
  }

  /**
   * What came of its lines so far, in their order.
   *
   * @param after number of a line
   * @throws Refused {@link Refusal#NOT_FOUND} if the clinic has no such job, or it has expired
   */
  public List<JobResult> results(String clinic, String jobId, int after, int limit) {
    return records
        .store()
        .read(
            reading ->
                reading.jobs().results(clinic, known(reading, clinic, jobId).id(), after, limit));
  }

  private static StoredJob known(Reading reading, String clinic, String jobId) {
    return Records.uuid(jobId)
        .flatMap(id -> reading.jobs().job(clinic, id))
        .orElseThrow(() -> Records.notFound("job"));
  }

  /** Jobs of all clinics with lines that wait, oldest first. */
  public List<StoredJob> unfinished() {
    return records.store().read(reading -> reading.jobs().unfinished(100));
  }

  /**
   * Takes the turn at a job, or keeps it, and gives the next lines.
   *
   * @param worker this process
   * @param turn how long others leave it alone
   * @return the lines; empty if another has the turn
   */
  public Optional<List<JobLine>> take(StoredJob job, UUID worker, Duration turn, int limit) {
    Instant now = records.now();
    try {
      return records
          .store()
          .write(
              writing ->
                  writing.jobs().takeTurn(job, worker, now, now.plus(turn))
                      ? Optional.of(writing.jobs().waiting(job.clinic(), job.id(), limit))
                      : Optional.empty());
    } catch (StoreConflict another) {
      return Optional.empty();
    }
  }

  /**
   * Files what came of lines, in their order; nothing of those that are filed already or were
   * erased.
   */
  public void finish(StoredJob job, List<JobResult> results) {
    records
        .store()
        .writeInTurn(
            writing -> {
              writing.jobs().finish(job.clinic(), job.id(), results);
              return job;
            });
  }

  /** Removes what has expired, and what was begun a day ago and never arrived whole. */
  public int removeExpired() {
    Instant now = records.now();
    UUID aDayAgo = firstIdOf(now.minus(Duration.ofDays(1)));
    return records
        .store()
        .write(
            writing -> {
              writing.jobs().removeAbandoned(aDayAgo);
              return writing.jobs().removeExpired(now);
            });
  }

  /** The least id of an instant (RFC 9562, version 7: 48 bits of milliseconds come first). */
  private static UUID firstIdOf(Instant instant) {
    return new UUID(instant.toEpochMilli() << 16 | 0x7000L, 0x8000000000000000L);
  }
}

package evenside.api.bulk;

import evenside.api.access.Caller;
import evenside.api.access.Scope;
import evenside.readiness.Jobs;
import evenside.readiness.ReadinessService;
import evenside.store.work.JobLine;
import evenside.store.work.JobResult;
import evenside.store.work.StoredJob;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Does jobs, in this process or after it: whatever a process that died left undone is done by the
 * next that has the turn. A line that was done and not filed is done again, which its idempotency
 * key makes harmless.
 */
public final class JobWorker implements AutoCloseable {
  /** How long other processes leave a job to this one that has not been heard of. */
  public static final Duration TURN = Duration.ofSeconds(20);

  private static final Logger LOG = LoggerFactory.getLogger(JobWorker.class);
  private static final int LINES_AT_ONCE = 200;
  private static final Duration LOOK_EVERY = Duration.ofMillis(500);
  private static final Duration CLEAR_EVERY = Duration.ofHours(1);

  private final Jobs jobs;
  private final ReadinessService grouped;
  private final Duration turn;
  private final UUID worker = UUID.randomUUID();
  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread thread = new Thread(work, "jobs");
            thread.setDaemon(true);
            return thread;
          });
  private volatile boolean closed;

  private JobWorker(ReadinessService service, Duration turn) {
    this.jobs = service.jobs();
    this.grouped = service.grouped();
    this.turn = turn;
  }

  /**
   * Starts to look for jobs.
   *
   * @param turn how long other processes leave a job to one that has not been heard of
   */
  public static JobWorker start(ReadinessService service, Duration turn) {
    JobWorker worker = new JobWorker(service, turn);
    worker.every(LOOK_EVERY, worker::work);
    worker.every(CLEAR_EVERY, worker.jobs::removeExpired);
    return worker;
  }

  private void every(Duration pause, Runnable work) {
    var unused =
        thread.scheduleWithFixedDelay(
            () -> {
              try {
                work.run();
              } catch (RuntimeException e) {
                // The database is away, for instance; the next time may be better.
                LOG.warn("bulk jobs wait and will be tried again: {}", e.getMessage());
              }
            },
            pause.toMillis(),
            pause.toMillis(),
            TimeUnit.MILLISECONDS);
  }

  private void work() {
    for (StoredJob job : jobs.unfinished()) {
      work(job);
    }
  }

  private void work(StoredJob job) {
    Caller caller = Caller.of(job.clinic(), job.client(), scopes(job));
    while (!closed) {
      Optional<List<JobLine>> taken = jobs.take(job, worker, turn, LINES_AT_ONCE);
      if (taken.isEmpty() || taken.get().isEmpty() || !done(job, caller, taken.get())) {
        return;
      }
    }
  }

  /** Whether all of these lines were done; if not, they are tried again later. */
  private boolean done(StoredJob job, Caller caller, List<JobLine> waiting) {
    LineDesk desk = new LineDesk(line -> grouped.ofLine(job.clinic(), job.id(), line));
    Lines lines = new Lines(desk, caller, job.id().toString());
    waiting.forEach(line -> lines.add(new Line(line.line(), line.request(), false)));
    List<LineResult> results = lines.finish();
    List<JobResult> whole =
        results.stream()
            .takeWhile(result -> !result.isPassing())
            .map(result -> new JobResult(result.line(), result.status(), result.json()))
            .toList();
    jobs.finish(job, whole);
    return whole.size() == results.size();
  }

  private static Set<Scope> scopes(StoredJob job) {
    return Arrays.stream(job.scopes().split(" "))
        .flatMap(name -> Scope.of(name).stream())
        .collect(Collectors.toSet());
  }

  /** Waits for the lines in hand. */
  @Override
  public void close() {
    closed = true;
    thread.shutdown();
    try {
      if (!thread.awaitTermination(30, TimeUnit.SECONDS)) {
        LOG.warn("a bulk job was broken off; the next start goes on with it");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}

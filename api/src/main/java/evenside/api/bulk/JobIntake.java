package evenside.api.bulk;

import evenside.api.access.Caller;
import evenside.api.access.Scope;
import evenside.readiness.Jobs;
import evenside.store.work.JobLine;
import evenside.store.work.JobResult;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;

/** Receives a job: keeps its lines in the store as they come, and starts it when all are there. */
final class JobIntake {
  private static final int LINES_AT_ONCE = 500;
  private static final long BYTES_AT_ONCE = 4L << 20;

  private final Jobs jobs;
  private final LineDesk desk;
  private final Caller caller;
  private final String clinic;
  private final UUID id;
  private final List<JobLine> lines = new ArrayList<>();
  private final List<JobResult> done = new ArrayList<>();
  private long bytes;
  private int count;

  JobIntake(Jobs jobs, LineDesk desk, Caller caller) {
    this.jobs = jobs;
    this.desk = desk;
    this.caller = caller;
    this.clinic = caller.clinic().orElseThrow();
    this.id = jobs.newId();
  }

  /** Adds a line that was done before this became a job. */
  void addDone(LineResult result) {
    done.add(new JobResult(result.line(), result.status(), result.json()));
    count++;
    keepIfMany();
  }

  /** Adds a line; one that cannot be read is refused now. */
  void add(Line line) {
    Optional<String> queue =
        Optional.of(desk.read(caller, id.toString(), line)).map(LineDesk.Ready::queue);
    if (queue.get().isEmpty()) {
      addDone(desk.read(caller, id.toString(), line).work().get());
      return;
    }
    lines.add(new JobLine(line.number(), queue, line.bytes()));
    bytes += line.bytes().length;
    count++;
    keepIfMany();
  }

  int count() {
    return count;
  }

  private void keepIfMany() {
    if (lines.size() + done.size() >= LINES_AT_ONCE || bytes >= BYTES_AT_ONCE) {
      keep();
    }
  }

  private void keep() {
    jobs.keep(clinic, id, lines, done);
    lines.clear();
    done.clear();
    bytes = 0;
  }

  /** Starts the job, and gives its id. */
  UUID start() {
    keep();
    String scopes =
        caller.scopes().stream().map(Scope::wireName).sorted().collect(Collectors.joining(" "));
    jobs.start(clinic, id, caller.client(), scopes, count);
    return id;
  }
}

package evenside.api.bulk;

import evenside.api.access.Caller;
import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.resource.PagedLists;
import evenside.readiness.Jobs;
import evenside.readiness.ReadinessService;
import java.io.IOException;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Takes many records in one body. What fits is answered line by line; a larger body, or one whose
 * sender would rather not wait, becomes a job.
 */
public final class BulkResource {
  /** Lines that are answered at once. */
  static final int MAX_LINES = 1000;

  /** Bytes of a body that is answered at once. */
  static final long MAX_BYTES = 16L << 20;

  /** Lines of a job. */
  static final int MAX_JOB_LINES = 100_000;

  /** Bytes of a job. */
  static final long MAX_JOB_BYTES = 512L << 20;

  private static final String PREFERENCE = "respond-async";

  private final LineDesk desk;
  private final Jobs jobs;

  /** Over the use cases. */
  public BulkResource(ReadinessService service) {
    ReadinessService grouped = service.grouped();
    this.desk = new LineDesk(line -> grouped);
    this.jobs = service.jobs();
  }

  /** Records the lines of a body. */
  public Reply add(Call call) {
    try {
      return answer(call);
    } catch (IOException e) {
      throw Problem.of(
              ProblemType.BAD_REQUEST,
              "The body did not arrive whole; send it again, what was stored is not stored twice.")
          .asException();
    }
  }

  private Reply answer(Call call) throws IOException {
    LineReader reader = new LineReader(call.stream().get());
    Caller caller = call.caller();
    if (prefersJob(call)) {
      Reply reply = job(call, reader, new JobIntake(jobs, desk, caller), null);
      return reply.with("Preference-Applied", PREFERENCE);
    }
    // Answers are held back until the last line has come, so that a client which writes first and
    // reads then is never blocked. The lines are done meanwhile.
    Lines lines = new Lines(desk, caller, jobs.newId().toString());
    Line line;
    while ((line = reader.next()) != null) {
      if (lines.count() == MAX_LINES || reader.bytes() > MAX_BYTES) {
        JobIntake intake = new JobIntake(jobs, desk, caller);
        lines.finish().forEach(intake::addDone);
        return job(call, reader, intake, line);
      }
      lines.add(line);
    }
    if (lines.count() == 0) {
      throw Problem.of(ProblemType.BAD_REQUEST, "The body has no lines.").asException();
    }
    return Reply.streaming(PagedLists.LINES, lines::writeTo).cached(Cache.NONE);
  }

  private static boolean prefersJob(Call call) {
    return call.header("Prefer").stream()
        .flatMap(value -> java.util.Arrays.stream(value.split("[,;]")))
        .anyMatch(one -> one.strip().toLowerCase(Locale.ROOT).equals(PREFERENCE));
  }

  private Reply job(Call call, LineReader reader, JobIntake intake, @Nullable Line first)
      throws IOException {
    Line line = first == null ? reader.next() : first;
    while (line != null) {
      if (intake.count() == MAX_JOB_LINES || reader.bytes() > MAX_JOB_BYTES) {
        throw Problem.of(
                ProblemType.CONTENT_TOO_LARGE,
                "A body may have "
                    + MAX_JOB_LINES
                    + " lines and "
                    + MAX_JOB_BYTES
                    + " bytes at most.")
            .asException();
      }
      intake.add(line);
      line = reader.next();
    }
    if (intake.count() == 0) {
      throw Problem.of(ProblemType.BAD_REQUEST, "The body has no lines.").asException();
    }
    return JobsResource.accepted(jobs.progress(call.clinic(), intake.start().toString()));
  }
}

package evenside.api.bulk;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.resource.PagedLists;
import evenside.readiness.Jobs;
import evenside.readiness.ReadinessService;
import evenside.store.work.JobResult;
import evenside.store.work.StoredJob;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** How bulk work goes on, and what came of it. */
public final class JobsResource {
  private static final String RETRY_AFTER_SECONDS = "2";
  private static final int RESULTS_AT_ONCE = 1000;

  private final Jobs jobs;

  /** Over the use cases. */
  public JobsResource(ReadinessService service) {
    this.jobs = service.jobs();
  }

  /** How far a job is. */
  public Reply get(Call call) {
    return reply(jobs.progress(call.clinic(), call.id("jobId")));
  }

  /** What came of its lines so far, one a line. */
  public Reply results(Call call) {
    String clinic = call.clinic();
    String id = call.id("jobId");
    List<JobResult> first = jobs.results(clinic, id, 0, RESULTS_AT_ONCE);
    return Reply.streaming(PagedLists.LINES, out -> write(clinic, id, first, out))
        .cached(Cache.NONE);
  }

  private void write(String clinic, String id, List<JobResult> first, OutputStream out)
      throws IOException {
    List<JobResult> page = first;
    while (!page.isEmpty()) {
      for (JobResult result : page) {
        out.write(result.result());
        out.write('\n');
      }
      int last = page.get(page.size() - 1).line();
      page =
          page.size() < RESULTS_AT_ONCE
              ? List.of()
              : jobs.results(clinic, id, last, RESULTS_AT_ONCE);
    }
    out.flush();
  }

  static Reply accepted(Jobs.Progress progress) {
    return reply(progress).withStatus(202).with("Location", path(progress.job()));
  }

  private static Reply reply(Jobs.Progress progress) {
    StoredJob job = progress.job();
    int waiting = progress.count().waiting();
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("jobId", job.id().toString());
    json.put("state", progress.done() ? "done" : "running");
    json.put("receivedAt", job.receivedAt().toString());
    json.put("expiresAt", job.expiresAt().toString());
    json.put("lines", job.lines());
    json.put("waiting", waiting);
    json.put("stored", progress.count().stored());
    json.put("refused", progress.count().refused());
    json.put("results", path(job) + "/results");
    Reply reply = Reply.of(json).cached(Cache.NONE);
    return progress.done() ? reply : reply.with("Retry-After", RETRY_AFTER_SECONDS);
  }

  private static String path(StoredJob job) {
    return "/v1/jobs/" + job.id();
  }
}

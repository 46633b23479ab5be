package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.readiness.CheckReport;
import evenside.readiness.Desk;

/** Checks and assessments: everything but storing. */
public final class ChecksResource {
  private final Desk desk;

  /** Over the desk, which stores nothing. */
  public ChecksResource(Desk desk) {
    this.desk = desk;
  }

  /** Checks a document of any published kind. */
  public Reply check(Call call) {
    CheckReport report = desk.check(Ids.kind(call, desk.contract()), call.json());
    return Reply.of(report.toJson())
        .cached(Cache.NONE)
        .describedBy(report.schemaVersion(), "check-report");
  }

  /** Scores an inline case. */
  public Reply assess(Call call) {
    // Without tag and digest: the same request tomorrow may be answered otherwise.
    return Reply.ofPassing(desk.assess(call.json()))
        .cached(Cache.NONE)
        .describedBy(desk.contract().schemaVersion(), "assessment");
  }
}

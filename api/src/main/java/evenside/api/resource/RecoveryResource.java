package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.recovery.Recovery;

/** Where a case stands, how it got there and what is missing; computed for each answer. */
public final class RecoveryResource {
  private static final String AS_OF = "asOf";

  private final Recovery recovery;
  private final String schemaVersion;

  /** Over the use cases. */
  public RecoveryResource(Recovery recovery, String schemaVersion) {
    this.recovery = recovery;
    this.schemaVersion = schemaVersion;
  }

  /** The query parameters of progress and plan. */
  public static String[] parameters() {
    return new String[] {"milestone", "criteriaSet", AS_OF};
  }

  /** The query parameters of the overview. */
  public static String[] overviewParameters() {
    return new String[] {AS_OF};
  }

  /** Every number over time. */
  public Reply progress(Call call) {
    String caseId = Ids.caseId(call);
    return reply(recovery.progress(call.clinic(), caseId, Queries.wanted(call)), "progress");
  }

  /** What to train and when to test again. */
  public Reply plan(Call call) {
    String caseId = Ids.caseId(call);
    return reply(recovery.plan(call.clinic(), caseId, Queries.wanted(call)), "plan");
  }

  /** Every gate. */
  public Reply milestones(Call call) {
    String caseId = Ids.caseId(call);
    return reply(
        recovery.milestones(call.clinic(), caseId, Parameters.date(call, AS_OF)),
        "milestone-overview");
  }

  private Reply reply(Document document, String kind) {
    return Reply.ofPassing(document).cached(Cache.NONE).describedBy(schemaVersion, kind);
  }
}

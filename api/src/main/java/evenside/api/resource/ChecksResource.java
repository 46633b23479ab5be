package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.problem.Problems;
import evenside.readiness.ReadinessService;
import evenside.schemas.Contract;

/** Checks and assessments: everything but storing. */
public final class ChecksResource {
  private final ReadinessService service;
  private final Contract contract;

  /** Over the service and the contract it checks against. */
  public ChecksResource(ReadinessService service, Contract contract) {
    this.service = service;
    this.contract = contract;
  }

  /** Checks a document of any published kind. */
  public Reply check(Call call) {
    String kind = call.id("kind");
    if (!contract.kinds().contains(kind)) {
      throw Problems.NOTHING_HERE.asException();
    }
    return Reply.of(service.check(kind, call.json()).toJson())
        .cached(Cache.NONE)
        .describedBy(contract.schemaVersion(), "check-report");
  }

  /** Scores an inline case. */
  public Reply assess(Call call) {
    // Without tag and digest: the same request tomorrow may be answered otherwise.
    return Reply.ofPassing(service.assess(call.json()))
        .cached(Cache.NONE)
        .describedBy(contract.schemaVersion(), "assessment");
  }
}

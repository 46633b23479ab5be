package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recovery.Plans;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Plans that clinicians adopted. */
public final class PlansResource {
  private final Plans plans;
  private final PagedLists lists;
  private final String schemaVersion;

  /** Over the use cases. */
  public PlansResource(Plans plans, PagedLists lists, String schemaVersion) {
    this.plans = plans;
    this.lists = lists;
    this.schemaVersion = schemaVersion;
  }

  /** The query parameters of adherence. */
  public static String[] adherenceParameters() {
    return new String[] {"asOf"};
  }

  /** Records one. */
  public Reply adopt(Call call) {
    String caseId = Ids.caseId(call);
    String key = Idempotency.read(call);
    JsonNode plan = call.json();
    Recorded recorded =
        plans.adopt(call.clinic(), caseId, plan, Optional.of(Idempotency.of(key, call, plan)));
    return Idempotency.reply(recorded, "/v1/plans/", reply(recorded.document()));
  }

  /** One page of them. */
  public Reply list(Call call) {
    String caseId = Ids.caseId(call);
    return lists.answer(
        call, call.path(), (after, limit) -> plans.ofCase(call.clinic(), caseId, after, limit));
  }

  /** One of them. */
  public Reply get(Call call) {
    return reply(plans.get(call.clinic(), Ids.uuid(call, "planId")));
  }

  /** What was trained of one. */
  public Reply adherence(Call call) {
    String planId = Ids.uuid(call, "planId");
    return Reply.ofPassing(plans.adherence(call.clinic(), planId, Parameters.date(call, "asOf")))
        .cached(Cache.NONE)
        .describedBy(schemaVersion, "adherence");
  }

  private Reply reply(Document document) {
    return Reply.of(document)
        .cached(Cache.PRIVATE)
        .describedBy(schemaVersion, "adopted-plan-record");
  }
}

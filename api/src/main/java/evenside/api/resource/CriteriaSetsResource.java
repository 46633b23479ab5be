package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.decision.CriteriaSets;
import evenside.readiness.recording.Recorded;

/** Criteria sets: the published ones, and the clinic's own. */
public final class CriteriaSetsResource {
  private final CriteriaSets criteriaSets;
  private final String schemaVersion;

  /** Over the use cases. */
  public CriteriaSetsResource(CriteriaSets criteriaSets, String schemaVersion) {
    this.criteriaSets = criteriaSets;
    this.schemaVersion = schemaVersion;
  }

  /** Lists them. */
  public Reply list(Call call) {
    return Reply.of(criteriaSets.list(call.clinic())).cached(Cache.PRIVATE);
  }

  /** Publishes a version of the clinic's own; id and version make a repeat harmless. */
  public Reply publish(Call call) {
    Recorded recorded = criteriaSets.publish(call.clinic(), call.json());
    Reply reply = describe(recorded.document()).cached(Cache.PRIVATE);
    return Idempotency.reply(recorded, "/v1/criteria-sets/", reply);
  }

  /** One version of one of them; it never changes. */
  public Reply get(Call call) {
    String id = Ids.code(call, "id");
    Document document = criteriaSets.get(call.clinic(), id, Ids.version(call));
    return describe(document)
        .cached(criteriaSets.isPublished(id) ? Cache.IMMUTABLE : Cache.PRIVATE);
  }

  private Reply describe(Document document) {
    return Reply.of(document).describedBy(schemaVersion, "criteria-set");
  }
}

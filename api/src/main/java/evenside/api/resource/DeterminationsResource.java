package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.decision.Determinations;
import evenside.readiness.recording.Recorded;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** What clinicians said on decisions. */
public final class DeterminationsResource {
  private final Determinations determinations;
  private final String schemaVersion;

  /** Over the use cases. */
  public DeterminationsResource(Determinations determinations, String schemaVersion) {
    this.determinations = determinations;
    this.schemaVersion = schemaVersion;
  }

  /** Records one. */
  public Reply add(Call call) {
    String decisionId = Ids.uuid(call, "decisionId");
    String key = Idempotency.read(call);
    JsonNode document = call.json();
    Recorded recorded =
        determinations.add(
            call.clinic(),
            call.caller().client(),
            decisionId,
            document,
            Optional.of(Idempotency.of(key, call, document)));
    return Idempotency.reply(recorded, "/v1/determinations/", reply(recorded.document()));
  }

  /** All on one decision. */
  public Reply list(Call call) {
    return Reply.ofPassing(determinations.list(call.clinic(), Ids.uuid(call, "decisionId")))
        .cached(Cache.PRIVATE)
        .describedBy(schemaVersion, "determinations");
  }

  /** One of them. */
  public Reply get(Call call) {
    return reply(determinations.get(call.clinic(), Ids.uuid(call, "determinationId")));
  }

  private Reply reply(Document document) {
    return Reply.of(document)
        .cached(Cache.PRIVATE)
        .describedBy(schemaVersion, "determination-record");
  }
}

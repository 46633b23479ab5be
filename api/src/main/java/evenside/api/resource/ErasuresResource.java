package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.cases.Erasures;
import evenside.readiness.recording.Recorded;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Erasing cases on purpose. */
public final class ErasuresResource {
  private final Erasures erasures;
  private final PagedLists lists;
  private final String schemaVersion;

  /** Over the use cases. */
  public ErasuresResource(Erasures erasures, PagedLists lists, String schemaVersion) {
    this.erasures = erasures;
    this.lists = lists;
    this.schemaVersion = schemaVersion;
  }

  /** Erases one. */
  public Reply erase(Call call) {
    String key = Idempotency.read(call);
    JsonNode request = call.json();
    Recorded recorded =
        erasures.erase(call.clinic(), request, Optional.of(Idempotency.of(key, call, request)));
    return Idempotency.reply(recorded, "/v1/erasures/", reply(recorded.document()));
  }

  /** One page of them. */
  public Reply list(Call call) {
    return lists.answer(
        call, call.path(), (after, limit) -> erasures.list(call.clinic(), after, limit));
  }

  /** One of them. */
  public Reply get(Call call) {
    return reply(erasures.get(call.clinic(), Ids.uuid(call, "erasureId")));
  }

  private Reply reply(Document document) {
    return Reply.of(document).cached(Cache.PRIVATE).describedBy(schemaVersion, "erasure");
  }
}

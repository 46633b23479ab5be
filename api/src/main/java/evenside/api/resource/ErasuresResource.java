package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.Erasures;
import evenside.readiness.Recorded;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Erasing cases on purpose. */
public final class ErasuresResource {
  private final Erasures erasures;
  private final Pages pages;
  private final String schemaVersion;

  /** Over the use cases. */
  public ErasuresResource(Erasures erasures, Pages pages, String schemaVersion) {
    this.erasures = erasures;
    this.pages = pages;
    this.schemaVersion = schemaVersion;
  }

  /** Erases one. */
  public Reply erase(Call call) {
    String key = Keys.read(call);
    JsonNode request = call.json();
    Recorded recorded =
        erasures.erase(call.clinic(), request, Optional.of(Keys.of(key, call, request)));
    return Keys.reply(recorded, "/v1/erasures/", reply(recorded.document()));
  }

  /** One page of them. */
  public Reply list(Call call) {
    return pages.answer(
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

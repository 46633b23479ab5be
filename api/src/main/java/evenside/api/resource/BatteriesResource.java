package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.Batteries;
import evenside.readiness.Recorded;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Test batteries of a case. */
public final class BatteriesResource {
  private final Batteries batteries;
  private final Pages pages;
  private final String schemaVersion;

  /** Over the use cases. */
  public BatteriesResource(Batteries batteries, Pages pages, String schemaVersion) {
    this.batteries = batteries;
    this.pages = pages;
    this.schemaVersion = schemaVersion;
  }

  /** Records one. */
  public Reply add(Call call) {
    String caseId = Ids.caseId(call);
    String key = Keys.read(call);
    JsonNode document = call.json();
    Recorded recorded =
        batteries.add(call.clinic(), caseId, document, Optional.of(Keys.of(key, call, document)));
    return Keys.reply(recorded, "/v1/batteries/", reply(recorded.document()));
  }

  /** One page of them. */
  public Reply list(Call call) {
    String caseId = Ids.caseId(call);
    return pages.answer(
        call, call.path(), (after, limit) -> batteries.list(call.clinic(), caseId, after, limit));
  }

  /** One of them. */
  public Reply get(Call call) {
    return reply(batteries.get(call.clinic(), Ids.uuid(call, "batteryId")));
  }

  private Reply reply(Document document) {
    return Reply.of(document).cached(Cache.PRIVATE).describedBy(schemaVersion, "battery-record");
  }
}

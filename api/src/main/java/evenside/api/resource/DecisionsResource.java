package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.ReadinessService;
import evenside.readiness.Recorded;
import evenside.store.DecisionFilter;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Decisions: made on a case, and found again. */
public final class DecisionsResource {
  private final ReadinessService service;
  private final Pages pages;
  private final String schemaVersion;

  /** Over the service. */
  public DecisionsResource(ReadinessService service, Pages pages, String schemaVersion) {
    this.service = service;
    this.pages = pages;
    this.schemaVersion = schemaVersion;
  }

  /** The query parameters of a search. */
  public static String[] parameters() {
    return new String[] {
      "caseId", "milestone", "criteriaSet", "outcome", "from", "to", Pages.AFTER, Pages.LIMIT
    };
  }

  /** Decides. */
  public Reply decide(Call call) {
    String caseId = Ids.caseId(call);
    String key = Keys.read(call);
    JsonNode request = call.json();
    Recorded recorded =
        service.decide(call.clinic(), caseId, request, Optional.of(Keys.of(key, call, request)));
    return Keys.reply(recorded, "/v1/decisions/", reply(recorded.document()));
  }

  /** One page of those on a case. */
  public Reply list(Call call) {
    // Asked for first, so that an unknown case is not an empty list.
    String caseId = Ids.caseId(call);
    service.caseRecord(call.clinic(), caseId);
    return page(call, DecisionFilter.ofCase(caseId));
  }

  /** One page of those that fit a filter. */
  public Reply search(Call call) {
    return page(call, DecisionFilters.read(call));
  }

  /** One of them. */
  public Reply get(Call call) {
    return reply(service.decision(call.clinic(), Ids.uuid(call, "decisionId")));
  }

  private Reply page(Call call, DecisionFilter filter) {
    return pages.answer(
        call,
        "/v1/decisions?" + filter,
        (after, limit) -> service.decisions(call.clinic(), filter, after, limit));
  }

  private Reply reply(Document document) {
    return Reply.of(document).cached(Cache.PRIVATE).describedBy(schemaVersion, "decision");
  }
}

package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.decision.Decisions;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.store.DecisionFilter;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Decisions: made on a case, and found again. */
public final class DecisionsResource {
  private final Decisions decisions;
  private final AccessTrail accesses;
  private final PagedLists lists;
  private final String schemaVersion;

  /** Over the use cases. */
  public DecisionsResource(
      Decisions decisions, AccessTrail accesses, PagedLists lists, String schemaVersion) {
    this.decisions = decisions;
    this.accesses = accesses;
    this.lists = lists;
    this.schemaVersion = schemaVersion;
  }

  /** The query parameters of a search. */
  public static String[] parameters() {
    return new String[] {
      "caseId",
      "subject",
      "milestone",
      "criteriaSet",
      "outcome",
      "from",
      "to",
      "clinician",
      "differing",
      PagedLists.AFTER,
      PagedLists.LIMIT
    };
  }

  /** Decides. */
  public Reply decide(Call call) {
    String caseId = Ids.caseId(call);
    String key = Idempotency.read(call);
    JsonNode request = call.json();
    Recorded recorded =
        decisions.decide(
            call.clinic(), caseId, request, Optional.of(Idempotency.of(key, call, request)));
    return Idempotency.reply(recorded, "/v1/decisions/", reply(recorded.document()));
  }

  /** One page of those on a case. */
  public Reply list(Call call) {
    String caseId = Ids.caseId(call);
    return lists.answer(
        call,
        call.path(),
        (after, limit) -> noted(call, decisions.ofCase(call.clinic(), caseId, after, limit)));
  }

  /** One page of those that fit a filter. */
  public Reply search(Call call) {
    DecisionFilter filter = DecisionFilters.read(call);
    return lists.answer(
        call,
        "/v1/decisions?" + filter,
        (after, limit) -> noted(call, decisions.search(call.clinic(), filter, after, limit)));
  }

  private Page noted(Call call, Page page) {
    accesses.note(call, "list", page.ids());
    return page;
  }

  /** One of them, with its place in the ledger. */
  public Reply get(Call call) {
    String id = Ids.uuid(call, "decisionId");
    Reply reply = reply(decisions.get(call.clinic(), id));
    accesses.note(call, "read", id);
    return Receipts.with(reply, decisions.receipt(call.clinic(), id));
  }

  private Reply reply(Document document) {
    return Reply.of(document).cached(Cache.PRIVATE).describedBy(schemaVersion, "decision");
  }
}

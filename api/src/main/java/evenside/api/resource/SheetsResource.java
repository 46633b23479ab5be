package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.page.Terms;
import evenside.api.page.cohort.CohortSheet;
import evenside.api.page.decision.DecisionSheet;
import evenside.api.page.progress.ProgressSheet;
import evenside.document.Document;
import evenside.ledger.Receipt;
import evenside.readiness.ReadinessService;
import java.util.List;
import java.util.OptionalLong;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Decisions, progress and cohort as sheets to be read and printed. */
public final class SheetsResource {
  private final ReadinessService service;
  private final Readers readers;
  private final Terms terms;

  /** Over the use cases. */
  public SheetsResource(ReadinessService service, Readers readers) {
    this.service = service;
    this.readers = readers;
    this.terms = new Terms(service.desk().contract());
  }

  /** A decision. */
  public Reply decision(Call call) {
    String id = Ids.uuid(call, "decisionId");
    Reply reply = Html.reply("decision", decisionSheet(call, id)).cached(Cache.PRIVATE);
    readers.note(call, "read", id);
    return reply;
  }

  /** The course of a case. */
  public Reply progress(Call call) {
    String caseId = Ids.caseId(call);
    JsonNode progress =
        read(service.recovery().progress(call.clinic(), caseId, Queries.wanted(call)));
    List<JsonNode> sets =
        progress
            .path("outlooks")
            .valueStream()
            .map(one -> one.path("criteriaSet"))
            .map(
                name ->
                    service
                        .criteriaSets()
                        .get(
                            call.clinic(),
                            name.path("id").asString(),
                            name.path("version").asString()))
            .map(SheetsResource::read)
            .toList();
    return Html.reply("progress", ProgressSheet.of(progress, sets, terms)).cached(Cache.NONE);
  }

  /** The clinic's own numbers. */
  public Reply cohort(Call call) {
    JsonNode cohort = read(service.cohorts().of(call.clinic(), Queries.cohort(call)));
    return Html.reply("cohort", CohortSheet.of(cohort, terms)).cached(Cache.NONE);
  }

  private DecisionSheet decisionSheet(Call call, String id) {
    Document decision = service.decisions().get(call.clinic(), id);
    OptionalLong entry =
        service.decisions().receipt(call.clinic(), id).stream().mapToLong(Receipt::index).findAny();
    return DecisionSheet.of(
        read(decision),
        decision.sha256(),
        read(service.determinations().list(call.clinic(), id)),
        entry,
        terms);
  }

  private static JsonNode read(Document document) {
    return JsonMapper.shared().readTree(document.bytes());
  }
}

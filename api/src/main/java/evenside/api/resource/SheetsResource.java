package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.page.Terms;
import evenside.api.page.decision.DecisionSheet;
import evenside.document.Document;
import evenside.ledger.Receipt;
import evenside.readiness.ReadinessService;
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

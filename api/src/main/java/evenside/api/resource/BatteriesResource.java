package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.cases.Batteries;
import evenside.readiness.cases.Corrections;
import evenside.readiness.recording.Recorded;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Test batteries of a case. */
public final class BatteriesResource {
  private static final String INDICES = "indices";

  private final Batteries batteries;
  private final Corrections corrections;
  private final PagedLists lists;
  private final String schemaVersion;

  /** Over the use cases. */
  public BatteriesResource(
      Batteries batteries, Corrections corrections, PagedLists lists, String schemaVersion) {
    this.batteries = batteries;
    this.corrections = corrections;
    this.lists = lists;
    this.schemaVersion = schemaVersion;
  }

  /** Records one. */
  public Reply add(Call call) {
    String caseId = Ids.caseId(call);
    String key = Idempotency.read(call);
    JsonNode document = call.json();
    Recorded recorded =
        batteries.add(
            call.clinic(), caseId, document, Optional.of(Idempotency.of(key, call, document)));
    return Idempotency.reply(recorded, "/v1/batteries/", reply(recorded.document()));
  }

  /** One page of them. */
  public Reply list(Call call) {
    String caseId = Ids.caseId(call);
    return lists.answer(
        call, call.path(), (after, limit) -> batteries.list(call.clinic(), caseId, after, limit));
  }

  /** One of them, with the symmetry indices asked for. */
  public Reply get(Call call) {
    String batteryId = Ids.uuid(call, "batteryId");
    return reply(batteries.get(call.clinic(), batteryId, indices(call)));
  }

  /** How one was corrected, and which decisions looked at it. */
  public Reply corrections(Call call) {
    return Reply.ofPassing(corrections.of(call.clinic(), Ids.uuid(call, "batteryId")))
        .cached(Cache.PRIVATE)
        .describedBy(schemaVersion, "corrections");
  }

  /** Query parameters of {@link #get}. */
  public static String[] parameters() {
    return new String[] {INDICES};
  }

  private static List<String> indices(Call call) {
    List<String> asked =
        call.query(INDICES).map(text -> List.of(text.split(",", -1))).orElse(List.of());
    List<String> known = Batteries.indices();
    if (!known.containsAll(asked)) {
      throw Parameters.bad(INDICES, "codes separated by commas, of " + String.join(", ", known));
    }
    return asked;
  }

  private Reply reply(Document document) {
    return Reply.of(document).cached(Cache.PRIVATE).describedBy(schemaVersion, "battery-record");
  }
}

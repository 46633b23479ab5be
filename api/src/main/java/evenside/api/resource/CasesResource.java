package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.EntityTags;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.cases.Cases;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Recorded.Novelty;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Cases: the one thing of the record that has revisions. */
public final class CasesResource {
  /** Hash of no document. */
  private static final String NO_REVISION = "";

  private final Cases cases;
  private final String schemaVersion;

  /** Over the use cases. */
  public CasesResource(Cases cases, String schemaVersion) {
    this.cases = cases;
    this.schemaVersion = schemaVersion;
  }

  /** Creates a case, or a revision of it if {@code If-Match} names the current one. */
  public Reply put(Call call) {
    String caseId = Ids.caseId(call);
    JsonNode document = call.json();
    Optional<String> replaced = replaced(call, caseId);
    Recorded recorded = cases.put(call.clinic(), caseId, document, replaced);
    Reply reply = reply(recorded.document());
    return recorded.novelty() == Novelty.CREATED
        ? reply.withStatus(201).with("Location", "/v1/cases/" + caseId)
        : reply;
  }

  /** The newest revision. */
  public Reply get(Call call) {
    return reply(cases.get(call.clinic(), Ids.caseId(call)));
  }

  private Reply reply(Document document) {
    return Reply.of(document).cached(Cache.PRIVATE).describedBy(schemaVersion, "case-record");
  }

  /** The revision that {@code If-Match} names, as the SHA-256 of its document. */
  private Optional<String> replaced(Call call, String caseId) {
    List<String> condition = call.header("If-Match");
    if (condition.isEmpty()) {
      return Optional.empty();
    }
    List<String> named = EntityTags.hashes(condition);
    if (named.size() == 1) {
      return Optional.of(named.get(0));
    }
    // Any of several: the one that is current, if it is among them. The service compares once more.
    String current = current(call, caseId);
    boolean match = EntityTags.isAny(condition) || named.contains(current);
    return Optional.of(match ? current : NO_REVISION);
  }

  private String current(Call call, String caseId) {
    try {
      return cases.get(call.clinic(), caseId).sha256();
    } catch (Refused refused) {
      if (refused.refusal() == Refusal.NOT_FOUND) {
        return NO_REVISION;
      }
      throw refused;
    }
  }
}

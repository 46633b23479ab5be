package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.EntityTags;
import evenside.api.http.Reply;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.document.Document;
import evenside.readiness.ReadinessService;
import evenside.readiness.Recorded;
import evenside.readiness.Recorded.Novelty;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Cases: the one thing of the record that has revisions. */
public final class CasesResource {
  private final ReadinessService service;
  private final String schemaVersion;

  /** Over the service. */
  public CasesResource(ReadinessService service, String schemaVersion) {
    this.service = service;
    this.schemaVersion = schemaVersion;
  }

  /** Creates a case, or a revision of it if {@code If-Match} names the current one. */
  public Reply put(Call call) {
    String caseId = Ids.caseId(call);
    JsonNode document = call.json();
    Optional<String> replaced = replaced(call, caseId);
    Recorded recorded = service.putCase(call.clinic(), caseId, document, replaced);
    Reply reply = reply(recorded.document());
    return recorded.novelty() == Novelty.CREATED
        ? reply.withStatus(201).with("Location", "/v1/cases/" + caseId)
        : reply;
  }

  /** The newest revision. */
  public Reply get(Call call) {
    return reply(service.caseRecord(call.clinic(), Ids.caseId(call)));
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
    String current = current(call, caseId);
    if (!EntityTags.isAny(condition) && !EntityTags.hashes(condition).contains(current)) {
      throw Problem.of(
              ProblemType.PRECONDITION_FAILED, "The current revision is not the one in If-Match.")
          .asException();
    }
    // The service compares once more, so that nobody comes in between.
    return Optional.of(current);
  }

  private String current(Call call, String caseId) {
    return service.caseRecord(call.clinic(), caseId).sha256();
  }
}

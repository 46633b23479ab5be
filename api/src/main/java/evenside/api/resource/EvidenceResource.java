package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.readiness.audit.Evidences;
import evenside.readiness.audit.Replays;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.OptionalLong;
import tools.jackson.databind.JsonNode;

/** The proof of a past decision, and the decision computed again. */
public final class EvidenceResource {
  /** Media type of a proof and of a checkpoint. */
  public static final String TEXT = "text/plain";

  private static final String SINCE = "since";

  private final Evidences evidence;
  private final Replays replays;
  private final AccessTrail accesses;
  private final String schemaVersion;

  /** Over the use cases. */
  public EvidenceResource(
      Evidences evidence, Replays replays, AccessTrail accesses, String schemaVersion) {
    this.evidence = evidence;
    this.replays = replays;
    this.accesses = accesses;
    this.schemaVersion = schemaVersion;
  }

  /** Query parameters of {@link #bundle} and {@link #changes}. */
  public static String[] parameters() {
    return new String[] {SINCE};
  }

  /** Everything that proves it. */
  public Reply bundle(Call call) {
    String id = Ids.uuid(call, "decisionId");
    OptionalLong since = Parameters.optionalNumber(call, SINCE);
    Reply reply = Reply.ofPassing(evidence.bundle(call.clinic(), id, since));
    accesses.note(call, "evidence", id);
    return reply.cached(Cache.PRIVATE).describedBy(schemaVersion, "evidence");
  }

  /** That its entry is in the ledger, as text. */
  public Reply proof(Call call) {
    String id = Ids.uuid(call, "decisionId");
    byte[] text = evidence.proof(call.clinic(), id).getBytes(StandardCharsets.UTF_8);
    accesses.note(call, "proof", id);
    return new Reply(200, TEXT + ";charset=utf-8", text, Map.of()).cached(Cache.PRIVATE);
  }

  /** Computes it again, as it was. */
  public Reply replay(Call call) {
    String id = Ids.uuid(call, "decisionId");
    JsonNode request = call.json();
    Reply reply = Reply.ofPassing(replays.replay(call.clinic(), id, request));
    accesses.note(call, "replay", id);
    return reply.cached(Cache.PRIVATE).describedBy(schemaVersion, "replay");
  }

  /** The same inputs under other terms. */
  public Reply whatIf(Call call) {
    String id = Ids.uuid(call, "decisionId");
    JsonNode request = call.json();
    Reply reply = Reply.ofPassing(replays.whatIf(call.clinic(), id, request));
    accesses.note(call, "what-if", id);
    return reply.cached(Cache.PRIVATE).describedBy(schemaVersion, "what-if");
  }

  /** What changed since another decision of the case. */
  public Reply changes(Call call) {
    String id = Ids.uuid(call, "decisionId");
    String since = Parameters.uuid(call, SINCE);
    Reply reply = Reply.ofPassing(replays.changes(call.clinic(), id, since));
    accesses.note(call, "changes", java.util.List.of(id, since));
    return reply.cached(Cache.PRIVATE).describedBy(schemaVersion, "decision-changes");
  }
}

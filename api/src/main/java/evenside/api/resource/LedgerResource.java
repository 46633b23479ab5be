package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.ledger.Proofs;
import evenside.readiness.audit.LedgerDesk;
import evenside.readiness.audit.Trail;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/** The ledger itself, and who read. */
public final class LedgerResource {
  /** Media type of entries. */
  public static final String BYTES = "application/octet-stream";

  private static final String FROM = "from";
  private static final String TO = "to";
  private static final String DECISION = "decisionId";

  private final LedgerDesk ledger;
  private final Trail trail;
  private final PagedLists lists;
  private final String schemaVersion;

  /** Over the use cases. */
  public LedgerResource(LedgerDesk ledger, Trail trail, PagedLists lists, String schemaVersion) {
    this.ledger = ledger;
    this.trail = trail;
    this.lists = lists;
    this.schemaVersion = schemaVersion;
  }

  /** Query parameters of {@link #consistency}. */
  public static String[] consistencyParameters() {
    return new String[] {FROM, TO};
  }

  /** Query parameters of {@link #entries}. */
  public static String[] entriesParameters() {
    return new String[] {FROM, PagedLists.LIMIT};
  }

  /** Query parameters of {@link #accesses}. */
  public static String[] accessParameters() {
    return new String[] {DECISION, PagedLists.AFTER, PagedLists.LIMIT};
  }

  /** The newest signed checkpoint. */
  public Reply checkpoint(Call call) {
    byte[] text = ledger.checkpoint(call.clinic()).getBytes(StandardCharsets.UTF_8);
    String type = EvidenceResource.TEXT + ";charset=utf-8";
    return new Reply(200, type, text, Map.of()).cached(Cache.PRIVATE);
  }

  /** Every key, ever. */
  public Reply keys(Call call) {
    return Reply.ofPassing(ledger.keys(call.clinic()))
        .cached(Cache.PRIVATE)
        .describedBy(schemaVersion, "ledger-keys");
  }

  /** That a larger ledger extends a smaller one. */
  public Reply consistency(Call call) {
    long from = Parameters.size(call, FROM);
    long to = Parameters.size(call, TO);
    if (from > to) {
      throw Problem.of(
              ProblemType.BAD_PARAMETER, "The query parameter from must not be larger than to.")
          .asException();
    }
    return Reply.ofPassing(ledger.consistency(call.clinic(), from, to))
        .cached(Cache.PRIVATE)
        .describedBy(schemaVersion, "ledger-consistency");
  }

  /** Entries, each after its length in two bytes. */
  public Reply entries(Call call) {
    long from = Parameters.optionalNumber(call, FROM).orElse(0);
    int limit =
        Parameters.number(call, PagedLists.LIMIT, 1, Proofs.MOST_ENTRIES, Proofs.MOST_ENTRIES);
    byte[] bytes = ledger.entries(call.clinic(), from, limit);
    return new Reply(200, BYTES, bytes, Map.of()).cached(Cache.PRIVATE);
  }

  /** Who read which decision. */
  public Reply accesses(Call call) {
    var decision = Parameters.optionalUuid(call, DECISION);
    return lists.answer(
        call,
        call.path() + "?" + decision,
        (after, limit) -> trail.list(call.clinic(), decision, after, limit));
  }
}

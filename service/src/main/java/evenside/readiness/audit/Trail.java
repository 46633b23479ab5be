package evenside.readiness.audit;

import evenside.document.Document;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Records;
import evenside.store.Access;
import evenside.store.Position;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.node.ObjectNode;

/** Who read which decision, and when. */
public final class Trail {
  private final Records records;

  public Trail(Records records) {
    this.records = records;
  }

  /**
   * Notes a reading, before the answer leaves.
   *
   * @param reader who, as authenticated
   * @param action how, such as {@code read} or {@code evidence}
   * @param decisionIds which decisions
   */
  public void note(String clinic, String reader, String action, List<String> decisionIds) {
    List<Access> accesses =
        decisionIds.stream()
            .flatMap(id -> Records.uuid(id).stream())
            .map(id -> new Access(records.newId(), records.now(), reader, action, id))
            .toList();
    if (!accesses.isEmpty()) {
      records
          .store()
          .note(
              writing -> {
                writing.audit().insertAccesses(clinic, accesses);
                return true;
              });
    }
  }

  /**
   * Who read, newest first.
   *
   * @param decisionId which decision; absent means any
   */
  public Page list(String clinic, Optional<String> decisionId, Optional<String> after, int limit) {
    Optional<UUID> one = decisionId.flatMap(Records::uuid);
    List<Access> rows =
        records
            .store()
            .read(
                reading ->
                    reading
                        .audit()
                        .accesses(clinic, one, after.flatMap(Position::parse), limit + 1));
    return Records.page(rows, limit, this::document, Access::position);
  }

  private byte[] document(Access access) {
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    json.put("readAt", access.readAt().toString());
    json.put("reader", access.reader());
    json.put("action", access.action());
    json.put("decisionId", access.decisionId().toString());
    return Document.of(json).bytes();
  }
}

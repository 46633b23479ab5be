package evenside.readiness.cases;

import evenside.document.Document;
import evenside.ledger.Appended;
import evenside.ledger.Appending;
import evenside.ledger.LedgerRefusal;
import evenside.ledger.NewEntry;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.readiness.recording.UnchangedCase;
import evenside.store.Position;
import evenside.store.StoredErasure;
import evenside.store.Writing;
import evenside.store.database.StoreConflict;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Erases all records of a case. What stays is the entries of the ledger, which say nothing without
 * the salts, and an entry of the erasure for each: so that an auditor can tell erasure from loss.
 */
public final class Erasures {
  private static final String KIND = "erasure-request";

  private final Records records;

  public Erasures(Records records) {
    this.records = records;
  }

  /**
   * Erases a case with everything recorded on it, from the database file too where that is this
   * service's own.
   */
  public Recorded erase(String clinic, JsonNode request, Optional<IdempotencyKey> key) {
    Optional<Recorded> earlier = records.recording().earlier(clinic, key, this::get);
    if (earlier.isPresent()) {
      return earlier.get();
    }
    records.accept(KIND, request);
    UUID id = records.newId();
    Instant now = records.now();
    try {
      Appended<Recorded> erased =
          records
              .ledger()
              .append(
                  clinic,
                  appending -> {
                    key.ifPresent(
                        k ->
                            appending
                                .writing()
                                .remember(
                                    records
                                        .recording()
                                        .remembered(clinic, k, KIND, id.toString())));
                    return erase(appending, clinic, id, now, request);
                  });
      records.store().forget();
      return erased.result().with(erased.receipt());
    } catch (LedgerRefusal refusal) {
      throw Refused.because(Refusal.UNAVAILABLE, String.valueOf(refusal.getMessage()));
    } catch (StoreConflict conflict) {
      return records.recording().earlier(clinic, key, this::get).orElseThrow(() -> conflict);
    }
  }

  private Recorded erase(
      Appending appending, String clinic, UUID id, Instant now, JsonNode request) {
    Writing writing = appending.writing();
    String caseId = request.path("caseId").asString();
    UnchangedCase.hold(writing, clinic, caseId);
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    json.put("erasureId", id.toString());
    json.put("erasedAt", now.toString());
    json.set("reason", request.path("reason"));
    json.set("requestedBy", request.path("requestedBy"));
    ArrayNode entries = json.putArray("entries");
    for (UUID record : writing.erasing().recordsOf(clinic, caseId)) {
      if (appending.holds(record)) {
        UUID entry = records.newId();
        appending.add(NewEntry.erasure(entry, record));
        entries.addObject().put("erased", record.toString()).put("entryId", entry.toString());
      }
    }
    writing.erasing().eraseCase(clinic, caseId);
    Document document = Document.of(json);
    writing.audit().insertErasure(clinic, new StoredErasure(id, now, document.bytes()));
    return new Recorded(id.toString(), document, Recorded.Novelty.CREATED);
  }

  /** An erasure: when, why, by whom, which entries; nothing of whom it was about. */
  public Document get(String clinic, String erasureId) {
    return Records.uuid(erasureId)
        .flatMap(id -> records.store().read(reading -> reading.audit().erasure(clinic, id)))
        .map(stored -> Document.ofCanonical(stored.document()))
        .orElseThrow(() -> Records.notFound("erasure"));
  }

  /** All erasures, newest first. */
  public Page list(String clinic, Optional<String> after, int limit) {
    List<StoredErasure> rows =
        records
            .store()
            .read(
                reading ->
                    reading.audit().erasures(clinic, after.flatMap(Position::parse), limit + 1));
    return Records.page(rows, limit, StoredErasure::document, StoredErasure::position);
  }
}

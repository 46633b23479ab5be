package evenside.readiness;

import evenside.document.Document;
import evenside.readiness.recording.Records;
import evenside.store.work.OutboxEvent;
import java.util.UUID;

/**
 * What a clinic's receiver is to be told: that a decision was recorded, by identifiers alone. Who
 * wants to know what it says must ask for it, with the rights to do so.
 *
 * @param id the same at every attempt, so that a receiver can tell what it has heard
 * @param attempt 1 for the first
 * @param document the bytes to be sent
 */
public record Announcement(UUID id, int attempt, Document document, OutboxEvent event) {
  static Announcement of(OutboxEvent event, String schemaVersion) {
    Document document =
        Document.of(
            Records.object()
                .put("schemaVersion", schemaVersion)
                .put("type", "decision-recorded")
                .put("eventId", event.id().toString())
                .put("sequence", event.position())
                .put("caseId", event.caseId())
                .put("decisionId", event.decisionId().toString())
                .put("decidedAt", event.decidedAt().toString()));
    return new Announcement(event.id(), event.attempts(), document, event);
  }
}

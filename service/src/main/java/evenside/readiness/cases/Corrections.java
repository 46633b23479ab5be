package evenside.readiness.cases;

import evenside.document.Document;
import evenside.readiness.recording.Records;
import evenside.store.AuditReading;
import evenside.store.StoredCorrection;
import java.util.Collection;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * How batteries were corrected. A correction is a battery of its own that names the one it replaces
 * ({@code replaces}); both stay as they are, and new decisions look at the new one only.
 */
public final class Corrections {
  private final Records records;

  public Corrections(Records records) {
    this.records = records;
  }

  /** What a battery replaces, what replaces it, and the decisions that looked at it. */
  public Document of(String clinic, String batteryId) {
    UUID id = Records.uuid(batteryId).orElseThrow(() -> Records.notFound("battery"));
    return records
        .store()
        .read(
            reading -> {
              if (reading.battery(clinic, id).isEmpty()) {
                throw Records.notFound("battery");
              }
              return document(reading.audit(), clinic, id);
            });
  }

  /** Which of some batteries were corrected by another since. */
  public Set<String> corrected(String clinic, Collection<String> batteryIds) {
    return records
        .store()
        .read(
            reading ->
                batteryIds.stream()
                    .filter(
                        id ->
                            Records.uuid(id)
                                .flatMap(known -> reading.audit().correctionOf(clinic, known))
                                .isPresent())
                    .collect(Collectors.toSet()));
  }

  private Document document(AuditReading audit, String clinic, UUID id) {
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    json.put("batteryId", id.toString());
    audit
        .correctionBy(clinic, id)
        .ifPresent(correction -> json.put("replaces", correction.replaces().toString()));
    Optional<StoredCorrection> later = audit.correctionOf(clinic, id);
    later.ifPresent(
        correction ->
            json.put("replacedBy", correction.batteryId().toString())
                .put("correctedAt", correction.correctedAt().toString()));
    ArrayNode decisions = json.putArray("decisions");
    audit.decisionsOn(clinic, id).forEach(decision -> decisions.add(decision.toString()));
    json.put("affected", later.isPresent() && !decisions.isEmpty());
    return Document.of(json);
  }
}

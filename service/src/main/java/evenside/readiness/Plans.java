package evenside.readiness;

import evenside.document.Document;
import evenside.store.Position;
import evenside.store.StoredPlan;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Recording and looking up the plans that clinicians adopted. */
public final class Plans {
  private static final String KIND = "plan";

  private final Records records;

  Plans(Records records) {
    this.records = records;
  }

  /** Records a plan as a clinician adopted or edited it. */
  public Recorded adopt(String clinic, String caseId, JsonNode json, Optional<IdempotencyKey> key) {
    Optional<Recorded> earlier = records.earlier(clinic, key, this::get);
    if (earlier.isPresent()) {
      return earlier.get();
    }
    records.store().read(reading -> Records.known(reading, clinic, caseId));
    records.accept("adopted-plan", json, null);
    UUID id = records.newId();
    Instant now = records.now();
    ObjectNode record = Records.object();
    record.put("schemaVersion", records.schemaVersion());
    record.put("planId", id.toString());
    record.put("caseId", caseId);
    record.put("adoptedAt", now.toString());
    record.put("sha256", Document.of(json).sha256());
    record.set("plan", json);
    Document document = Document.of(record);
    String milestone = json.path("milestone").asString();
    StoredPlan plan = new StoredPlan(clinic, id, caseId, milestone, now, document.bytes());
    return records.record(
        new Records.Draft(
            clinic,
            KIND,
            new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
            writing -> writing.insertPlan(plan),
            this::get,
            Optional::empty),
        key);
  }

  /** An adopted plan, as it was recorded. */
  public Document get(String clinic, String planId) {
    return records
        .store()
        .read(reading -> Records.uuid(planId).flatMap(id -> reading.plans(clinic).byId(id)))
        .map(stored -> Document.ofCanonical(stored.document()))
        .orElseThrow(() -> Records.notFound(KIND));
  }

  /** The adopted plans of a case, newest first. */
  public Page ofCase(String clinic, String caseId, Optional<String> after, int limit) {
    return records
        .store()
        .read(
            reading -> {
              Records.known(reading, clinic, caseId);
              List<StoredPlan> rows =
                  reading.plans(clinic).ofCase(caseId, after.flatMap(Position::parse), limit + 1);
              return Records.page(rows, limit, StoredPlan::document, StoredPlan::position);
            });
  }
}

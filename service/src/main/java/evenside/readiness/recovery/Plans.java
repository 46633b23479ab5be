package evenside.readiness.recovery;

import evenside.document.AdherenceDocument;
import evenside.document.Document;
import evenside.plan.Adherence;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Recording;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.UnchangedCase;
import evenside.readiness.training.SessionHistory;
import evenside.schemas.StrictJson;
import evenside.store.Position;
import evenside.store.Reading;
import evenside.store.StoredPlan;
import evenside.training.Session;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Recording and looking up the plans that clinicians adopted. */
public final class Plans {
  private static final String KIND = "plan";

  private final Records records;

  public Plans(Records records) {
    this.records = records;
  }

  /** Records a plan as a clinician adopted or edited it. */
  public Recorded adopt(String clinic, String caseId, JsonNode json, Optional<IdempotencyKey> key) {
    return records
        .recording()
        .record(clinic, key, this::get, reading -> prepare(reading, clinic, caseId, json));
  }

  private Recording.Draft prepare(Reading reading, String clinic, String caseId, JsonNode json) {
    Records.known(reading, clinic, caseId);
    records.accept("adopted-plan", json, records.sets(reading, clinic));
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
    return new Recording.Draft(
        KIND,
        new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
        Optional.empty(),
        writing -> {
          // Erased meanwhile: then nothing of it may come back.
          UnchangedCase.hold(writing, clinic, caseId);
          writing.insertPlan(plan);
        },
        none -> Optional.empty());
  }

  /** An adopted plan, as it was recorded. */
  public Document get(String clinic, String planId) {
    return records
        .store()
        .read(reading -> Records.uuid(planId).flatMap(id -> reading.plans(clinic).byId(id)))
        .map(stored -> Document.ofCanonical(stored.document()))
        .orElseThrow(() -> Records.notFound(KIND));
  }

  /**
   * What was trained of an adopted plan.
   *
   * @param asOf last day looked at, if the plan does not end before; today if absent
   */
  public Document adherence(String clinic, String planId, Optional<LocalDate> asOf) {
    StoredPlan stored =
        records
            .store()
            .read(reading -> Records.uuid(planId).flatMap(id -> reading.plans(clinic).byId(id)))
            .orElseThrow(() -> Records.notFound(KIND));
    JsonNode plan = StrictJson.read(stored.document(), StrictJson.Limits.OWN).path("plan");
    LocalDate from = LocalDate.parse(plan.path("from").asString());
    LocalDate today = asOf.orElseGet(() -> LocalDate.ofInstant(records.now(), ZoneOffset.UTC));
    LocalDate until = plan.has("until") ? LocalDate.parse(plan.path("until").asString()) : today;
    LocalDate to = until.isBefore(today) ? until : today;
    List<Session> sessions =
        records
            .store()
            .read(
                reading -> new SessionHistory(reading, clinic, stored.caseId()).between(from, to));
    Adherence adherence = Adherence.of(planned(plan), from, to, sessions);
    return AdherenceDocument.of(records.schemaVersion(), planId, stored.caseId(), adherence);
  }

  private List<Adherence.Planned> planned(JsonNode plan) {
    List<Adherence.Planned> planned = new ArrayList<>();
    for (JsonNode item : plan.path("items")) {
      String exercise = item.path("exercise").asString();
      boolean running = records.published().plans().isRunning(exercise);
      planned.add(new Adherence.Planned(exercise, running, item.path("timesPerWeek").asInt()));
    }
    return planned;
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

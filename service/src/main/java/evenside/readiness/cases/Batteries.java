package evenside.readiness.cases;

import evenside.assessment.AssessedBattery;
import evenside.document.Document;
import evenside.intake.Checked;
import evenside.intake.RuleCode;
import evenside.knee.KneeCase;
import evenside.ledger.NewEntry;
import evenside.limb.Side;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Recording;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.readiness.recording.Sent;
import evenside.readiness.recording.UnchangedCase;
import evenside.schemas.Fault;
import evenside.store.Position;
import evenside.store.Reading;
import evenside.store.StoredBattery;
import evenside.store.StoredCase;
import evenside.store.StoredCorrection;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/** Recording and looking up test batteries. */
public final class Batteries {
  private static final String KIND = "battery";

  private final Records records;

  public Batteries(Records records) {
    this.records = records;
  }

  /** Records a battery. The sender's own record id, if given, makes a repeat harmless for ever. */
  public Recorded add(String clinic, String caseId, JsonNode json, Optional<IdempotencyKey> key) {
    return records
        .recording()
        .record(clinic, key, this::get, reading -> prepare(reading, clinic, caseId, json));
  }

  private Recording.Prepared prepare(Reading reading, String clinic, String caseId, JsonNode json) {
    StoredCase seen = Records.known(reading, clinic, caseId);
    KneeCase kneeCase = Records.kneeCase(seen);
    Side operated = kneeCase.operatedSide();
    Checked checked = records.accept(KIND, json, operated);
    Sent sent = Sent.of(caseId, json);
    Optional<Recorded> twin = twin(reading, clinic, sent);
    if (twin.isPresent()) {
      return twin.get();
    }
    Optional<UUID> replaced = replaced(reading, clinic, caseId, json);
    UUID id = records.newId();
    Instant now = records.now();
    AssessedBattery assessed = records.scoring().battery(id.toString(), json, operated);
    List<Fault> warnings = Unusual.warnings(assessed, kneeCase.surgeryDate(), checked.warnings());
    Document document =
        BatteryRecord.document(
            records.schemaVersion(), id, caseId, now, sent.content(), assessed, warnings);
    StoredBattery stored =
        new StoredBattery(
            clinic,
            id,
            caseId,
            sent.recordId(),
            sent.content().sha256(),
            OffsetDateTime.parse(json.path("performedAt").asString()).toInstant(),
            now,
            document.bytes());
    return new Recording.Draft(
        KIND,
        new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
        replaced.map(old -> () -> NewEntry.correction(id, old, document.bytes())),
        writing -> {
          UnchangedCase.hold(writing, seen);
          writing.insertBattery(stored, EvidenceRows.of(assessed));
          replaced.ifPresent(
              old -> writing.audit().insertCorrection(clinic, new StoredCorrection(id, old, now)));
        },
        later -> twin(later, clinic, sent));
  }

  /** The battery that this one corrects; refused if the case has no such battery. */
  private static Optional<UUID> replaced(
      Reading reading, String clinic, String caseId, JsonNode json) {
    if (!json.has("replaces")) {
      return Optional.empty();
    }
    Optional<UUID> old = Records.uuid(json.path("replaces").asString());
    boolean ofThisCase =
        old.flatMap(id -> reading.battery(clinic, id))
            .filter(battery -> battery.caseId().equals(caseId))
            .isPresent();
    if (!ofThisCase) {
      throw Refused.faulty(
          List.of(
              Fault.at(
                  JsonPointer.compile("/replaces"),
                  RuleCode.BATTERY_UNKNOWN.code(),
                  "this case has no battery of that id")));
    }
    return old;
  }

  /** A battery with its computed symmetry. */
  public Document get(String clinic, String batteryId) {
    return records
        .store()
        .read(
            reading ->
                Records.uuid(batteryId)
                    .flatMap(id -> reading.battery(clinic, id))
                    .map(stored -> Document.ofCanonical(stored.document()))
                    .orElseThrow(() -> Records.goneOrUnknown(reading, clinic, batteryId, KIND)));
  }

  /**
   * A battery with its computed symmetry and other indices beside it.
   *
   * @param indices codes of symmetry indices; with none, the document as it is kept
   * @throws Refused {@link Refusal#INVALID} if there is no such index, {@link Refusal#NOT_FOUND} if
   *     there is no such battery
   */
  public Document get(String clinic, String batteryId, List<String> indices) {
    Document kept = get(clinic, batteryId);
    return indices.isEmpty()
        ? kept
        : BatteryRecord.with(AskedIndices.read(indices), kept, records.scoring());
  }

  /**
   * What each result of a battery counts as once its trials are joined.
   *
   * @param kept the battery, as {@link #get} answers it
   */
  public JsonNode results(Document kept) {
    return BatteryRecord.results(kept, records.scoring());
  }

  /** Codes of the symmetry indices that may be asked for. */
  public static List<String> indices() {
    return AskedIndices.codes();
  }

  /** The batteries of a case, newest first. */
  public Page list(String clinic, String caseId, Optional<String> after, int limit) {
    return records
        .store()
        .read(
            reading -> {
              Records.known(reading, clinic, caseId);
              List<StoredBattery> rows =
                  reading.batteries(clinic, caseId, after.flatMap(Position::parse), limit + 1);
              return Records.page(rows, limit, StoredBattery::document, StoredBattery::position);
            });
  }

  /** The record that was made when the same was sent before. */
  private static Optional<Recorded> twin(Reading reading, String clinic, Sent sent) {
    return sent.twin(id -> reading.batteryByRecordId(clinic, id), "a battery");
  }
}

package evenside.readiness.decision;

import evenside.document.Document;
import evenside.intake.RuleCode;
import evenside.ledger.NewEntry;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Recording;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.store.Reading;
import evenside.store.StoredDecision;
import evenside.store.StoredDetermination;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What clinicians said on decisions. Software never clears anybody: each determination is a
 * person's own, with a reason wherever the outcome does not speak for itself.
 */
public final class Determinations {
  private static final String KIND = "determination";
  private static final String CLEARED = "cleared";
  private static final String MET = "met";

  private final Records records;

  public Determinations(Records records) {
    this.records = records;
  }

  /**
   * Records a determination on a decision.
   *
   * @param client name of the program that sent it
   * @throws Refused {@link Refusal#INVALID} if the reason is missing where it is needed
   */
  public Recorded add(
      String clinic,
      String client,
      String decisionId,
      JsonNode json,
      Optional<IdempotencyKey> key) {
    return records
        .recording()
        .record(
            clinic, key, this::get, reading -> prepare(reading, clinic, client, decisionId, json));
  }

  private Recording.Draft prepare(
      Reading reading, String clinic, String client, String decisionId, JsonNode json) {
    StoredDecision decision = Records.decision(reading, clinic, decisionId);
    records.accept(KIND, json);
    boolean differs = differs(json, decision.outcome());
    demandReason(json, decision.outcome(), differs);
    UUID id = records.newId();
    Instant now = records.now();
    Document document = document(id, client, decision, json, now, differs);
    StoredDetermination stored =
        new StoredDetermination(
            clinic,
            id,
            decision.id(),
            decision.caseId(),
            json.path("statement").asString(),
            json.path("clinician").path("reference").asString(),
            differs,
            now,
            document.bytes());
    return new Recording.Draft(
        KIND,
        new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
        Optional.of(() -> NewEntry.determination(id, decision.id(), document.bytes())),
        writing -> {
          // Erased meanwhile: then nothing of it may come back.
          boolean there = writing.cases().hold(clinic, decision.caseId()).isPresent();
          if (!there || writing.decision(clinic, decision.id()).isEmpty()) {
            throw Records.notFound("decision");
          }
          writing.audit().insertDetermination(stored);
        },
        none -> Optional.empty());
  }

  /** Cleared although not met, or not cleared although met. */
  private static boolean differs(JsonNode json, String outcome) {
    return json.path("statement").asString().equals(CLEARED) != outcome.equals(MET);
  }

  private static void demandReason(JsonNode json, String outcome, boolean differs) {
    boolean needed = differs || outcome.equals("undetermined");
    if (needed && !json.has("reason")) {
      throw Refused.faulty(
          List.of(
              Fault.at(
                      JsonPointer.compile("/reason"),
                      RuleCode.REASON_REQUIRED.code(),
                      "a determination needs a reason where it differs from the outcome, or the"
                          + " outcome is undetermined")
                  .withLimit("the outcome is " + outcome)));
    }
  }

  private Document document(
      UUID id,
      String client,
      StoredDecision decision,
      JsonNode json,
      Instant now,
      boolean differs) {
    ObjectNode document = Records.object();
    document.put("schemaVersion", records.schemaVersion());
    document.put("determinationId", id.toString());
    document.put("decisionId", decision.id().toString());
    document.put("caseId", decision.caseId());
    document.put("recordedAt", now.toString());
    document.put("client", client);
    document.put("outcome", decision.outcome());
    document.put("differs", differs);
    document.set("determination", json);
    return Document.of(document);
  }

  /** A determination, as it was recorded. */
  public Document get(String clinic, String determinationId) {
    return records
        .store()
        .read(
            reading ->
                Records.uuid(determinationId)
                    .flatMap(id -> reading.audit().determination(clinic, id))
                    .map(stored -> Document.ofCanonical(stored.document()))
                    .orElseThrow(
                        () -> Records.goneOrUnknown(reading, clinic, determinationId, KIND)));
  }

  /** All determinations on a decision, newest first, in one document. */
  public Document list(String clinic, String decisionId) {
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    ArrayNode all = json.putArray("determinations");
    of(clinic, decisionId)
        .forEach(one -> all.add(StrictJson.read(one.bytes(), StrictJson.Limits.OWN)));
    return Document.of(json);
  }

  /** All determinations on a decision, newest first. */
  public List<Document> of(String clinic, String decisionId) {
    UUID id = records.decision(clinic, decisionId).id();
    return records.store().read(reading -> reading.audit().determinations(clinic, id)).stream()
        .map(stored -> Document.ofCanonical(stored.document()))
        .toList();
  }
}

package evenside.readiness.audit;

import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.document.ComparisonDocument;
import evenside.document.DecisionDocument;
import evenside.document.Document;
import evenside.intake.CaseReader;
import evenside.intake.Intake;
import evenside.readiness.computing.DecisionMaker;
import evenside.readiness.decision.Evaluation;
import evenside.readiness.recording.ClinicSets;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.StrictJson;
import evenside.store.Reading;
import evenside.store.StoredDecision;
import java.time.LocalDate;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Past decisions computed again: as they were, under other terms, or beside one another. */
public final class Replays {
  private final Records records;
  private final Recomputation recomputation;

  public Replays(Records records) {
    this.records = records;
    this.recomputation = new Recomputation(records.published(), records.maker());
  }

  /**
   * Computes a decision again from its stored inputs and criteria set, and names every difference.
   * Where another engine version decided, a difference need not be a fault; the answer names both.
   */
  public Document replay(String clinic, String decisionId, JsonNode request) {
    StoredDecision stored = records.decision(clinic, decisionId);
    records.accept("replay-request", request);
    DecisionMaker.Inputs inputs = inputs(stored);
    Document then = Document.ofCanonical(stored.document());
    String decidedAt = json(then).path("decidedAt").asString();
    Document again = recomputation.again(decisionId, decidedAt, inputs, set(stored));
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    json.put("decisionId", decisionId);
    json.put("replayedAt", records.now().toString());
    json.put("decidedBy", inputs.engineVersion());
    json.put("replayedBy", Engine.VERSION);
    for (String said : List.of("requestedBy", "reason")) {
      if (request.has(said)) {
        json.set(said, request.path(said));
      }
    }
    json.put("identical", then.equals(again));
    json.put("sha256", then.sha256());
    ArrayNode differences = Differences.of(json(then), json(again), "decided", "replayed");
    json.set("differences", differences);
    return Document.of(json);
  }

  /**
   * The same inputs under another criteria set or on another date; recorded nowhere.
   *
   * @throws Refused {@link Refusal#INVALID} with every fault
   */
  public Document whatIf(String clinic, String decisionId, JsonNode request) {
    StoredDecision stored = records.decision(clinic, decisionId);
    ClinicSets sets = records.sets(clinic);
    records.accept("what-if-request", request, sets);
    DecisionMaker.Inputs inputs = inputs(stored);
    CriteriaSet original = set(stored);
    CriteriaSet other =
        request.has("criteriaSet")
            ? sets.find(Intake.name(request.path("criteriaSet"))).orElseThrow()
            : original;
    LocalDate asOf =
        request.has("asOf") ? LocalDate.parse(request.path("asOf").asString()) : stored.asOf();
    Evaluation.notBeforeSurgery(CaseReader.read(inputs.json().path("case")), asOf);
    Decision before = records.maker().judge(inputs.json(), original, stored.asOf());
    Decision after = records.maker().judge(inputs.json(), other, asOf);
    JsonNode decided = json(Document.ofCanonical(stored.document()));
    JsonNode judgement = json(Document.written(to -> DecisionDocument.judgement(to, after)));
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    json.put("recorded", false);
    json.put("decisionId", decisionId);
    json.put("inputsSha256", inputs.document().sha256());
    json.set("decided", brief(decided));
    json.set("whatIf", judgement);
    json.set("changes", FindingChanges.of(decided, judgement));
    json.set(
        "comparison",
        json(Document.written(to -> ComparisonDocument.write(to, List.of(before, after)))));
    return Document.of(json);
  }

  /**
   * What changed from one decision to another of the same case, criterion by criterion.
   *
   * @throws Refused {@link Refusal#CONFLICT} if they are not of one case
   */
  public Document changes(String clinic, String decisionId, String sinceId) {
    StoredDecision after = records.decision(clinic, decisionId);
    StoredDecision before = records.decision(clinic, sinceId);
    if (!before.caseId().equals(after.caseId())) {
      throw Refused.because(Refusal.CONFLICT, "the two decisions are of different cases");
    }
    JsonNode first = json(Document.ofCanonical(before.document()));
    JsonNode second = json(Document.ofCanonical(after.document()));
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    json.put("caseId", after.caseId());
    json.set("before", brief(first));
    json.set("after", brief(second));
    json.put("sameCriteriaSet", before.criteriaSha256().equals(after.criteriaSha256()));
    json.set("changes", FindingChanges.of(first, second));
    return Document.of(json);
  }

  private static ObjectNode brief(JsonNode decision) {
    ObjectNode brief = Records.object();
    for (String member : List.of("decisionId", "decidedAt", "asOf", "engineVersion", "outcome")) {
      brief.set(member, decision.path(member));
    }
    brief.set("criteriaSet", decision.path("criteriaSet"));
    return brief;
  }

  private static DecisionMaker.Inputs inputs(StoredDecision stored) {
    Document document = Document.ofCanonical(stored.inputs());
    return new DecisionMaker.Inputs(document, json(document));
  }

  private CriteriaSet set(StoredDecision stored) {
    Document criteria = records.store().read(reading -> criteria(reading, records, stored));
    return recomputation.set(criteria.bytes());
  }

  /**
   * The criteria set that a decision was made by, as it was then.
   *
   * @throws Refused {@link Refusal#CONFLICT} if it is kept nowhere any more
   */
  static Document criteria(Reading reading, Records records, StoredDecision stored) {
    String name = stored.criteriaSet() + "/" + stored.criteriaVersion();
    String sha256 = stored.criteriaSha256();
    // What is still published needs no question to the database.
    return records
        .sets(reading, stored.clinic())
        .document(name)
        .filter(document -> document.sha256().equals(sha256))
        .or(
            () ->
                reading
                    .ledger()
                    .criteria(stored.clinic(), sha256)
                    .map(Document::ofCanonical)
                    .filter(document -> document.sha256().equals(sha256)))
        .orElseThrow(
            () ->
                Refused.because(
                    Refusal.CONFLICT,
                    "the criteria set " + name + " is no longer what the decision was made by"));
  }

  private static JsonNode json(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }
}

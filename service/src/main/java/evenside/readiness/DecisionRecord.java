package evenside.readiness;

import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.decision.RepeatLooks;
import evenside.document.DecisionDocument;
import evenside.document.Document;
import evenside.knee.KneeCase;
import evenside.readiness.BatteryRecord.Loaded;
import evenside.schemas.StrictJson;
import evenside.store.Reading;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Makes the two documents of a decision: what it says, and everything that went in by value, so
 * that it can be computed again from the second alone.
 */
final class DecisionRecord {
  private final Scoring scoring;
  private final String schemaVersion;
  private final Reading reading;
  private final StoredCase stored;
  private final KneeCase kneeCase;

  DecisionRecord(Scoring scoring, String schemaVersion, Reading reading, StoredCase stored) {
    this.scoring = scoring;
    this.schemaVersion = schemaVersion;
    this.reading = reading;
    this.stored = stored;
    this.kneeCase = Cases.read(stored);
  }

  /**
   * A decision and its row.
   *
   * @param decision what was found
   * @param stored the documents made of it
   */
  record Decided(Decision decision, StoredDecision stored) {}

  Decided decide(UUID id, DecisionRequest asked, Instant now) {
    CriteriaSet set = asked.set();
    Evaluation evaluation =
        Evaluation.of(scoring, reading, stored, kneeCase, set, asked.asOf(), asked.maxAgeDays());
    Decision decision = evaluation.decision();
    List<Loaded> batteries = evaluation.batteries();
    List<SessionHistory.Loaded> sessions = evaluation.sessions();
    StoredDecision row =
        new StoredDecision(
            stored.clinic(),
            id,
            stored.caseId(),
            set.id(),
            set.version(),
            set.sha256(),
            set.milestone(),
            decision.outcome().code(),
            asked.asOf(),
            now,
            document(id, decision, batteries, sessions, now).bytes(),
            inputs(asked, batteries, sessions, evaluation.decision().looks()).bytes());
    return new Decided(decision, row);
  }

  private Document document(
      UUID id,
      Decision decision,
      List<Loaded> batteries,
      List<SessionHistory.Loaded> sessions,
      Instant now) {
    ObjectNode json = DecisionDocument.judgement(decision);
    json.put("schemaVersion", schemaVersion);
    json.put("decisionId", id.toString());
    json.put("caseId", stored.caseId());
    json.put("decidedAt", now.toString());
    json.put("caseSha256", stored.sha256());
    ArrayNode used = json.putArray("batteries");
    for (Loaded battery : batteries) {
      used.addObject()
          .put("batteryId", id(battery))
          .put("sha256", battery.stored().contentSha256())
          .put("performedAt", battery.content().path("performedAt").asString())
          .put("ageDays", ChronoUnit.DAYS.between(battery.performedOn(), decision.asOf()));
    }
    for (SessionHistory.Loaded session : sessions) {
      json.withArray("sessions")
          .addObject()
          .put("sessionId", session.session().id())
          .put("sha256", session.stored().contentSha256())
          .put("performedAt", session.content().path("performedAt").asString())
          .put(
              "ageDays", ChronoUnit.DAYS.between(session.session().performedOn(), decision.asOf()));
    }
    return Document.of(json);
  }

  private Document inputs(
      DecisionRequest asked,
      List<Loaded> batteries,
      List<SessionHistory.Loaded> sessions,
      RepeatLooks looks) {
    ObjectNode json = Records.object();
    json.put("schemaVersion", schemaVersion);
    json.put("engineVersion", Engine.VERSION);
    json.put("asOf", asked.asOf().toString());
    if (asked.maxAgeDays() != null) {
      json.put("maxResultAgeDays", asked.maxAgeDays());
    }
    json.put("batteriesInLast14Days", looks.batteries());
    json.putObject("criteriaSet")
        .put("id", asked.set().id())
        .put("version", asked.set().version())
        .put("sha256", asked.set().sha256());
    JsonNode kept = StrictJson.read(stored.document(), StrictJson.Limits.OWN);
    json.set("case", kept.path("case"));
    ArrayNode used = json.putArray("batteries");
    for (Loaded battery : batteries) {
      used.addObject().put("batteryId", id(battery)).set("battery", battery.content());
    }
    for (SessionHistory.Loaded session : sessions) {
      json.withArray("sessions")
          .addObject()
          .put("sessionId", session.session().id())
          .set("session", session.content());
    }
    return Document.of(json);
  }

  private static String id(Loaded battery) {
    return battery.stored().id().toString();
  }
}

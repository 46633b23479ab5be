package evenside.readiness.decision;

import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.decision.RepeatLooks;
import evenside.document.Document;
import evenside.knee.KneeCase;
import evenside.readiness.cases.BatteryRecord.Loaded;
import evenside.readiness.cases.CaseBatteries;
import evenside.readiness.computing.DecisionMaker;
import evenside.readiness.computing.DecisionRequest;
import evenside.readiness.recording.Records;
import evenside.readiness.training.SessionHistory;
import evenside.schemas.StrictJson;
import evenside.store.Reading;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Makes the two documents of a decision: everything that went in, by value, and what follows from
 * it.
 */
final class DecisionRecord {
  private final DecisionMaker maker;
  private final String schemaVersion;
  private final Reading reading;
  private final StoredCase stored;
  private final CaseBatteries known;
  private final KneeCase kneeCase;

  DecisionRecord(Records records, Reading reading, StoredCase stored, CaseBatteries known) {
    this.maker = records.maker();
    this.schemaVersion = records.schemaVersion();
    this.reading = reading;
    this.stored = stored;
    this.known = known;
    this.kneeCase = Records.kneeCase(stored);
  }

  /**
   * A decision to be stored.
   *
   * @param seen the revision of the case that it was computed on
   * @param judged what was found
   * @param decision the row
   * @param batteries those it looked at
   */
  record Made(StoredCase seen, Decision judged, StoredDecision decision, List<UUID> batteries) {}

  Made decide(UUID id, DecisionRequest asked, Instant now) {
    Evaluation.notBeforeSurgery(kneeCase, asked.asOf());
    CriteriaSet set = asked.set();
    List<Loaded> batteries = DecisionInputs.of(known, kneeCase, set, asked.asOf());
    List<SessionHistory.Loaded> sessions =
        DecisionInputs.sessions(reading, stored.clinic(), stored.caseId(), set, asked.asOf());
    RepeatLooks looks = Evaluation.looks(reading, stored, batteries, asked.asOf());
    DecisionMaker.Inputs inputs = inputs(asked, batteries, sessions, looks);
    Decision decision = maker.judge(inputs.json(), set, asked.asOf());
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
            maker.document(id.toString(), now.toString(), inputs, decision).bytes(),
            inputs.document().bytes());
    return new Made(
        stored, decision, row, batteries.stream().map(battery -> battery.stored().id()).toList());
  }

  /** Everything that goes in, by value: the decision is computed from this and nothing else. */
  private DecisionMaker.Inputs inputs(
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
    json.put("caseId", stored.caseId());
    json.put("caseSha256", stored.sha256());
    json.set("case", StrictJson.read(stored.document(), StrictJson.Limits.OWN).path("case"));
    ArrayNode used = json.putArray("batteries");
    for (Loaded battery : batteries) {
      used.addObject()
          .put("batteryId", id(battery))
          .put("sha256", battery.stored().contentSha256())
          .set("battery", battery.content());
    }
    for (SessionHistory.Loaded session : sessions) {
      json.withArray("sessions")
          .addObject()
          .put("sessionId", session.session().id())
          .put("sha256", session.stored().contentSha256())
          .set("session", session.content());
    }
    return new DecisionMaker.Inputs(Document.of(json), json);
  }

  private static String id(Loaded battery) {
    return battery.stored().id().toString();
  }
}

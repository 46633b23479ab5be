package evenside.readiness.computing;

import evenside.assessment.AssessedBattery;
import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.RepeatLooks;
import evenside.document.DecisionDocument;
import evenside.document.Document;
import evenside.intake.CaseReader;
import evenside.intake.SessionReader;
import evenside.knee.KneeCase;
import evenside.training.Session;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * A decision as a pure function of its inputs document and its criteria set: no clock, no store.
 * Deciding, replaying, what-if and the offline check of an evidence bundle all go through it, so
 * they cannot differ.
 */
public final class DecisionMaker {
  private final Scoring scoring;

  public DecisionMaker(Scoring scoring) {
    this.scoring = scoring;
  }

  /** What went in, as it is kept. */
  public record Inputs(Document document, JsonNode json) {
    public LocalDate asOf() {
      return LocalDate.parse(json.path("asOf").asString());
    }

    public String engineVersion() {
      return json.path("engineVersion").asString();
    }
  }

  /**
   * Judges the inputs by a set on a date.
   *
   * @param set not necessarily the one they name
   */
  public Decision judge(JsonNode inputs, CriteriaSet set, LocalDate asOf) {
    KneeCase kneeCase = CaseReader.read(inputs.path("case"));
    List<AssessedBattery> assessed = new ArrayList<>();
    for (JsonNode battery : inputs.path("batteries")) {
      assessed.add(
          scoring.battery(
              battery.path("batteryId").asString(),
              battery.path("battery"),
              kneeCase.operatedSide()));
    }
    return scoring.decide(
        set,
        kneeCase,
        assessed,
        sessions(inputs),
        asOf,
        DecisionRequest.maxAgeDays(inputs),
        looks(inputs, assessed, asOf));
  }

  private static List<Session> sessions(JsonNode inputs) {
    List<Session> sessions = new ArrayList<>();
    for (JsonNode session : inputs.path("sessions")) {
      String id = session.path("sessionId").asString();
      sessions.add(SessionReader.read(id, session.path("session")));
    }
    return sessions;
  }

  /** As counted when it was decided; for another date, among the batteries that were kept. */
  private static RepeatLooks looks(
      JsonNode inputs, List<AssessedBattery> assessed, LocalDate asOf) {
    JsonNode counted = inputs.path("batteriesInLast14Days");
    return counted.isNumber() && inputs.path("asOf").asString().equals(asOf.toString())
        ? new RepeatLooks(counted.intValue())
        : RepeatLooks.among(
            assessed.stream().map(one -> one.battery().performedAt()).toList(), asOf);
  }

  /**
   * The decision document of the inputs, to the byte.
   *
   * @param id of the decision
   * @param decidedAt when it was recorded, as text
   */
  public Document document(String id, String decidedAt, Inputs inputs, Decision decision) {
    JsonNode from = inputs.json();
    LocalDate asOf = decision.asOf();
    return DecisionDocument.recorded(
        decision,
        new DecisionDocument.Recorded(
            id,
            decidedAt,
            from.path("schemaVersion").asString(),
            from.path("caseId").asString(),
            from.path("caseSha256").asString(),
            inputs.document().sha256(),
            used(from, "batteries", "battery", asOf),
            from.has("sessions") ? used(from, "sessions", "session", asOf) : null));
  }

  /** The records that the decision looked at: what is after its date is left out. */
  private static List<DecisionDocument.Used> used(
      JsonNode inputs, String list, String kind, LocalDate asOf) {
    List<DecisionDocument.Used> used = new ArrayList<>();
    for (JsonNode one : inputs.path(list)) {
      String performedAt = one.path(kind).path("performedAt").asString();
      LocalDate day = OffsetDateTime.parse(performedAt).toLocalDate();
      if (!day.isAfter(asOf)) {
        used.add(
            new DecisionDocument.Used(
                one.path(kind + "Id").asString(),
                one.path("sha256").asString(),
                performedAt,
                ChronoUnit.DAYS.between(day, asOf)));
      }
    }
    return used;
  }
}

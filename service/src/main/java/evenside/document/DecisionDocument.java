package evenside.document;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Truth;
import evenside.decision.Caution;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.decision.RepeatLooks;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A decision as JSON: what it says, and for a recorded one, what it was made from. */
public final class DecisionDocument {
  private static final Fragments<CriteriaSet> CRITERIA_SETS =
      new Fragments<>(DecisionDocument::describe);
  private static final Fragments<Caution> CAUTIONS = new Fragments<>(DecisionDocument::say);

  private DecisionDocument() {}

  /**
   * What a recorded decision says beside its judgement.
   *
   * @param id of the decision
   * @param decidedAt when it was recorded, as text
   * @param caseId its case
   * @param caseSha256 fingerprint of the case
   * @param inputsSha256 fingerprint of everything that went in
   * @param batteries those it looked at
   * @param sessions entries of the training record it looked at, or null if it asks for none
   */
  public record Recorded(
      String id,
      String decidedAt,
      String schemaVersion,
      String caseId,
      String caseSha256,
      String inputsSha256,
      List<Used> batteries,
      @Nullable List<Used> sessions) {}

  /**
   * A record that was looked at.
   *
   * @param id of the record
   * @param sha256 fingerprint of what was sent
   * @param performedAt when it was done, as text
   * @param ageDays days from then to the date decided for
   */
  public record Used(String id, String sha256, String performedAt, long ageDays) {}

  /** A recorded decision. */
  public static Document recorded(Decision decision, Recorded recorded) {
    return Document.written(json -> write(json, decision, recorded));
  }

  /**
   * Everything that the computation gave; equal for equal inputs, with no id and no time of day.
   */
  public static void judgement(CanonicalWriter json, Decision decision) {
    write(json, decision, null);
  }

  private static void write(CanonicalWriter json, Decision decision, @Nullable Recorded recorded) {
    FindingDocument findings = new FindingDocument(json, decision.asOf());
    json.object().put("asOf", decision.asOf());
    if (recorded != null) {
      json.name("batteries").array(recorded.batteries(), DecisionDocument::battery);
      json.put("caseId", recorded.caseId()).put("caseSha256", recorded.caseSha256());
    }
    cautions(json.name("cautions"), decision.cautions());
    criteriaSet(json.name("criteriaSet"), decision.criteriaSet());
    if (recorded != null) {
      json.put("decidedAt", recorded.decidedAt()).put("decisionId", recorded.id());
    }
    json.put("engineVersion", Engine.VERSION).name("finding");
    findings.finding(decision.finding());
    json.name("informative");
    findings.findings(decision.informative());
    if (recorded != null) {
      json.put("inputsSha256", recorded.inputsSha256());
    }
    json.name("notMet").texts(decision.required(Truth.NOT_MET));
    json.put("outcome", decision.outcome().code());
    looks(json.name("repeatLooks"), decision.looks());
    if (recorded != null) {
      json.put("schemaVersion", recorded.schemaVersion());
      if (recorded.sessions() != null) {
        json.name("sessions").array(recorded.sessions(), DecisionDocument::session);
      }
    }
    json.put("summary", decision.summary());
    json.name("undetermined").texts(decision.required(Truth.UNDETERMINED)).end();
  }

  private static void battery(CanonicalWriter json, Used battery) {
    json.object().put("ageDays", battery.ageDays()).put("batteryId", battery.id());
    json.put("performedAt", battery.performedAt()).put("sha256", battery.sha256()).end();
  }

  private static void session(CanonicalWriter json, Used session) {
    json.object().put("ageDays", session.ageDays()).put("performedAt", session.performedAt());
    json.put("sessionId", session.id()).put("sha256", session.sha256()).end();
  }

  static void criteriaSet(CanonicalWriter json, CriteriaSet set) {
    json.written(CRITERIA_SETS.of(set));
  }

  private static void describe(CanonicalWriter json, CriteriaSet set) {
    json.object().put("designedFor", set.designedFor()).put("id", set.id());
    json.put("milestone", set.milestone()).put("population", set.population());
    json.put("sha256", set.sha256()).put("source", set.source().text());
    json.put("title", set.title()).put("version", set.version()).end();
  }

  private static void looks(CanonicalWriter json, RepeatLooks looks) {
    json.object().put("batteries", looks.batteries()).name("chanceOfFalseChange");
    FindingDocument.quantity(json, looks.chanceOfFalseChange(), "%");
    json.put("days", RepeatLooks.DAYS).end();
  }

  static void cautions(CanonicalWriter json, Iterable<Caution> cautions) {
    json.array(cautions, DecisionDocument::caution);
  }

  /** Those that say something of the case are no two times the same. */
  private static void caution(CanonicalWriter json, Caution caution) {
    if (caution.more().isEmpty()) {
      json.written(CAUTIONS.of(caution));
    } else {
      say(json, caution);
    }
  }

  private static void say(CanonicalWriter json, Caution caution) {
    json.object().put("code", caution.code()).putIfAny("source", caution.source());
    json.put("text", caution.text()).put("urgent", caution.urgent()).end();
  }
}

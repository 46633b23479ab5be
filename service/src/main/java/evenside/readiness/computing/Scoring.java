package evenside.readiness.computing;

import evenside.assessment.AssessedBattery;
import evenside.assessment.Assessor;
import evenside.assessment.EvidenceOf;
import evenside.battery.Battery;
import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.RepeatLooks;
import evenside.knee.KneeCase;
import evenside.limb.Side;
import evenside.measure.Evidence;
import evenside.measure.TrainingFact;
import evenside.progression.History;
import evenside.progression.TrainingFacts;
import evenside.training.Session;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** From batteries to decisions, without clock and store. */
public final class Scoring {
  private final Published published;

  public Scoring(Published published) {
    this.published = published;
  }

  /** Reads and computes one battery that the intake has accepted. */
  public AssessedBattery battery(String id, JsonNode json, Side operatedSide) {
    Battery battery = published.batteries().read(id, json);
    return Assessor.assess(battery, operatedSide, published.measures());
  }

  /**
   * Decides by one set.
   *
   * @param sessions entries of the training record up to the date, or more
   * @param maxAgeDays asked for by the caller, or null; the set's own may be stricter
   * @param looks how often the knee was tested shortly before
   */
  public Decision decide(
      CriteriaSet set,
      KneeCase kneeCase,
      List<AssessedBattery> batteries,
      List<Session> sessions,
      LocalDate asOf,
      @Nullable Integer maxAgeDays,
      RepeatLooks looks) {
    Evidence evidence = evidence(set, kneeCase, batteries, sessions, asOf, maxAgeDays);
    return published.decider().decide(set, kneeCase, evidence, looks);
  }

  /** What a decision by one set looks at. */
  public Evidence evidence(
      CriteriaSet set,
      KneeCase kneeCase,
      List<AssessedBattery> batteries,
      List<Session> sessions,
      LocalDate asOf,
      @Nullable Integer maxAgeDays) {
    Evidence evidence =
        EvidenceOf.batteries(
            kneeCase,
            batteries,
            asOf,
            smaller(maxAgeDays, set.maxResultAgeDays()),
            published.measures());
    List<TrainingFact> facts =
        sessions.isEmpty()
            ? List.of()
            : TrainingFacts.of(
                History.of(sessions, asOf), published.training().progressions(), asOf);
    return evidence.withTraining(facts);
  }

  private static @Nullable Integer smaller(@Nullable Integer a, @Nullable Integer b) {
    if (a == null || b == null) {
      return a == null ? b : a;
    }
    return Math.min(a, b);
  }
}

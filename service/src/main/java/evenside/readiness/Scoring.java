package evenside.readiness;

import evenside.assessment.AssessedBattery;
import evenside.assessment.Assessor;
import evenside.assessment.EvidenceOf;
import evenside.battery.Battery;
import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.knee.KneeCase;
import evenside.limb.Side;
import evenside.measure.Evidence;
import evenside.measure.Measure;
import evenside.measure.TrainingFact;
import evenside.progression.History;
import evenside.progression.TrainingFacts;
import evenside.training.Session;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** From batteries to decisions, without clock and store. */
final class Scoring {
  private static final String RATIO = "hamstring-quadriceps-ratio";

  private final Published published;
  private final Measure ratio;

  Scoring(Published published) {
    this.published = published;
    this.ratio = published.measures().get(RATIO);
  }

  /** Reads and computes one battery that the intake has accepted. */
  AssessedBattery battery(String id, JsonNode json, Side operatedSide) {
    Battery battery = published.batteries().read(id, json);
    return Assessor.assess(battery, operatedSide, ratio);
  }

  /**
   * Decides by one set.
   *
   * @param maxAgeDays asked for by the caller, or null; the set's own may be stricter
   */
  Decision decide(
      CriteriaSet set,
      KneeCase kneeCase,
      List<AssessedBattery> batteries,
      LocalDate asOf,
      @Nullable Integer maxAgeDays) {
    return decide(set, kneeCase, batteries, List.of(), asOf, maxAgeDays);
  }

  /**
   * The same with entries of the training record.
   *
   * @param sessions entries up to the date, or more
   */
  Decision decide(
      CriteriaSet set,
      KneeCase kneeCase,
      List<AssessedBattery> batteries,
      List<Session> sessions,
      LocalDate asOf,
      @Nullable Integer maxAgeDays) {
    Evidence evidence = evidence(set, kneeCase, batteries, sessions, asOf, maxAgeDays);
    return published.decider().decide(set, kneeCase, evidence);
  }

  /** What a decision by one set looks at. */
  Evidence evidence(
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

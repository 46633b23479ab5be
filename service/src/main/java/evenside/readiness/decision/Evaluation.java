package evenside.readiness.decision;

import evenside.assessment.AssessedBattery;
import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.RepeatLooks;
import evenside.intake.RuleCode;
import evenside.knee.KneeCase;
import evenside.measure.Evidence;
import evenside.readiness.cases.BatteryRecord.Loaded;
import evenside.readiness.cases.CaseBatteries;
import evenside.readiness.computing.Scoring;
import evenside.readiness.recording.Refused;
import evenside.readiness.training.SessionHistory;
import evenside.schemas.Fault;
import evenside.store.Reading;
import evenside.store.StoredCase;
import evenside.training.Session;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonPointer;

/**
 * What a criteria set says about a recorded case on a date; nothing is recorded.
 *
 * @param decision what was found
 * @param evidence what was looked at
 * @param batteries what it rests on
 * @param sessions entries of the training record it rests on
 */
public record Evaluation(
    Decision decision,
    Evidence evidence,
    List<Loaded> batteries,
    List<SessionHistory.Loaded> sessions) {

  /** Judges a recorded case by a set. */
  public static Evaluation of(
      Scoring scoring,
      Reading reading,
      StoredCase stored,
      CaseBatteries known,
      KneeCase kneeCase,
      CriteriaSet set,
      LocalDate asOf,
      @Nullable Integer maxAgeDays) {
    notBeforeSurgery(kneeCase, asOf);
    List<Loaded> batteries = DecisionInputs.of(known, kneeCase, set, asOf);
    List<AssessedBattery> assessed =
        batteries.stream()
            .map(b -> scoring.battery(id(b), b.content(), kneeCase.operatedSide()))
            .toList();
    List<SessionHistory.Loaded> sessions =
        DecisionInputs.sessions(reading, stored.clinic(), stored.caseId(), set, asOf);
    List<Session> entries = SessionHistory.sessions(sessions);
    RepeatLooks looks = looks(reading, stored, batteries, asOf);
    return new Evaluation(
        scoring.decide(set, kneeCase, assessed, entries, asOf, maxAgeDays, looks),
        scoring.evidence(set, kneeCase, assessed, entries, asOf, maxAgeDays),
        batteries,
        sessions);
  }

  /** All batteries of the days before, also those that the decision does not depend on. */
  static RepeatLooks looks(
      Reading reading, StoredCase stored, List<Loaded> batteries, LocalDate asOf) {
    ZoneOffset clinic =
        RepeatLooks.calendar(batteries.stream().map(Loaded::performedAt).toList(), asOf);
    Instant from = RepeatLooks.firstDay(asOf).atStartOfDay(clinic).toInstant();
    Instant to = asOf.plusDays(1).atStartOfDay(clinic).toInstant().minusNanos(1_000);
    return new RepeatLooks(reading.countBatteries(stored.clinic(), stored.caseId(), from, to));
  }

  /** Refuses a date before the surgery. */
  public static void notBeforeSurgery(KneeCase kneeCase, LocalDate asOf) {
    if (asOf.isBefore(kneeCase.surgeryDate())) {
      throw Refused.faulty(
          List.of(
              Fault.at(
                      JsonPointer.compile("/asOf"),
                      RuleCode.DATE_BEFORE_SURGERY.code(),
                      "before the surgery")
                  .withLimit("from " + kneeCase.surgeryDate() + " on")));
    }
  }

  private static String id(Loaded battery) {
    return battery.stored().id().toString();
  }
}

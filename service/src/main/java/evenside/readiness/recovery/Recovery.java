package evenside.readiness.recovery;

import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.Milestone;
import evenside.document.Document;
import evenside.document.MilestonesDocument;
import evenside.document.PlanDocument;
import evenside.document.ProgressDocument;
import evenside.knee.KneeCase;
import evenside.plan.Outlook;
import evenside.plan.Plan;
import evenside.progression.Advice;
import evenside.readiness.cases.CaseBatteries;
import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.decision.Evaluation;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.readiness.training.SessionHistory;
import evenside.store.DecisionFilter;
import evenside.store.Reading;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import evenside.trend.Series;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Where a case stands, how it got there and what is missing. Computed at each question from what is
 * recorded; nothing is recorded.
 */
public final class Recovery {
  private final Records records;

  public Recovery(Records records) {
    this.records = records;
  }

  /**
   * Every number over time, and when criteria that are not met would be.
   *
   * @param asked the sets to look at; every milestone's usual set if none is named
   * @throws Refused {@link Refusal#NOT_FOUND}, {@link Refusal#INVALID}
   */
  public Document progress(String clinic, String caseId, Wanted asked) {
    List<CriteriaSet> sets = asked.namesSet() ? List.of(asked.set(records, clinic)) : usualSets();
    return about(
        clinic,
        caseId,
        asked.asOf(),
        view -> {
          List<Series> series = view.series();
          Map<Decision, List<Outlook>> outlooks = new LinkedHashMap<>();
          for (CriteriaSet set : sets) {
            Decision decision = view.evaluate(set);
            outlooks.put(
                decision,
                Outlook.of(set, decision.finding(), series, records.published().measures()));
          }
          return ProgressDocument.of(
              new ProgressDocument.Course(
                  records.schemaVersion(),
                  caseId,
                  view.kneeCase().surgeryDate(),
                  view.asOf(),
                  series,
                  outlooks),
              records.published().measures());
        });
  }

  /**
   * What to train, test, wait for and examine until a set could be met.
   *
   * @param asked the milestone or set worked towards
   * @throws Refused {@link Refusal#NOT_FOUND}, {@link Refusal#INVALID}
   */
  public Document plan(String clinic, String caseId, Wanted asked) {
    CriteriaSet set = asked.set(records, clinic);
    return about(
        clinic,
        caseId,
        asked.asOf(),
        view -> {
          Evaluation evaluation = view.evaluation(set);
          Plan plan =
              records
                  .published()
                  .planner()
                  .propose(
                      evaluation.decision(),
                      evaluation.evidence(),
                      view.kneeCase(),
                      view.series(),
                      view.advice());
          LocalDate surgery = view.kneeCase().surgeryDate();
          return PlanDocument.of(records.schemaVersion(), caseId, plan, surgery);
        });
  }

  /** Where the case stands on every milestone. */
  public Document milestones(String clinic, String caseId, Optional<LocalDate> asOf) {
    return about(
        clinic,
        caseId,
        asOf,
        view -> {
          List<MilestonesDocument.Entry> entries =
              records.published().milestones().stream().map(view::entry).toList();
          return MilestonesDocument.of(
              new MilestonesDocument.Overview(
                  records.schemaVersion(), caseId, view.asOf(), entries));
        });
  }

  private static MilestonesDocument.Latest inShort(StoredDecision decision) {
    return new MilestonesDocument.Latest(
        decision.id().toString(),
        decision.asOf(),
        decision.outcome(),
        decision.criteriaSet(),
        decision.criteriaVersion());
  }

  private List<CriteriaSet> usualSets() {
    return records.published().milestones().stream()
        .flatMap(milestone -> records.published().usualSet(milestone.code()).stream())
        .toList();
  }

  /** Answers a question about one case on one state of the record. */
  private Document about(
      String clinic, String caseId, Optional<LocalDate> asked, Function<View, Document> answer) {
    return records.store().read(reading -> answer.apply(view(reading, clinic, caseId, asked)));
  }

  private View view(Reading reading, String clinic, String caseId, Optional<LocalDate> asked) {
    StoredCase stored = Records.known(reading, clinic, caseId);
    KneeCase kneeCase = Records.kneeCase(stored);
    Instant now = records.now();
    CaseBatteries batteries = new CaseBatteries(reading, stored);
    LocalDate asOf = asked.orElseGet(() -> LocalDate.ofInstant(now, batteries.offset(now)));
    Evaluation.notBeforeSurgery(kneeCase, asOf);
    return new View(reading, stored, batteries, kneeCase, asOf);
  }

  /** One case on one date. */
  private final class View {
    private final Reading reading;
    private final StoredCase stored;
    private final CaseBatteries batteries;
    private final KneeCase kneeCase;
    private final LocalDate asOf;

    private View(
        Reading reading,
        StoredCase stored,
        CaseBatteries batteries,
        KneeCase kneeCase,
        LocalDate asOf) {
      this.reading = reading;
      this.stored = stored;
      this.batteries = batteries;
      this.kneeCase = kneeCase;
      this.asOf = asOf;
    }

    private KneeCase kneeCase() {
      return kneeCase;
    }

    private LocalDate asOf() {
      return asOf;
    }

    private List<Series> series() {
      return new SeriesReader(reading, stored, kneeCase.surgeryDate(), asOf)
          .all(records.published().measures());
    }

    /** What the rules say about the next training; null without a training record. */
    private @Nullable Advice advice() {
      List<SessionHistory.Loaded> entries =
          new SessionHistory(reading, stored.clinic(), stored.caseId()).asOf(asOf);
      return entries.isEmpty()
          ? null
          : records
              .published()
              .advising()
              .advice(SessionHistory.sessions(entries), asOf, AdviceQuestion.TODAY);
    }

    private Decision evaluate(CriteriaSet set) {
      return evaluation(set).decision();
    }

    private Evaluation evaluation(CriteriaSet set) {
      return Evaluation.of(
          records.scoring(), reading, stored, batteries, kneeCase, set, asOf, null);
    }

    private MilestonesDocument.Entry entry(Milestone milestone) {
      Optional<CriteriaSet> usual = records.published().usualSet(milestone.code());
      return new MilestonesDocument.Entry(
          milestone,
          usual.map(this::evaluate).orElse(null),
          latestDecision(milestone.code()).map(Recovery::inShort).orElse(null));
    }

    private Optional<StoredDecision> latestDecision(String milestone) {
      DecisionFilter filter =
          new DecisionFilter(
              Optional.of(stored.caseId()),
              Optional.of(milestone),
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty());
      return reading.decisions(stored.clinic(), filter, Optional.empty(), 1).stream().findFirst();
    }
  }
}

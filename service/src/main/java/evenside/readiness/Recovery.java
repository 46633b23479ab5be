package evenside.readiness;

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
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/**
 * Where a case stands, how it got there and what is missing. Computed at each question from what is
 * recorded; nothing is recorded.
 */
public final class Recovery {
  private final Records records;

  Recovery(Records records) {
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
              view.kneeCase().surgeryDate(),
              view.asOf(),
              series,
              outlooks,
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
          return PlanDocument.of(plan, view.kneeCase().surgeryDate());
        });
  }

  /** Where the case stands on every gate. */
  public Document milestones(String clinic, String caseId, Optional<LocalDate> asOf) {
    return about(
        clinic,
        caseId,
        asOf,
        view -> {
          MilestonesDocument document = new MilestonesDocument();
          for (Milestone milestone : records.published().milestones()) {
            Optional<CriteriaSet> set = records.published().usualSet(milestone.code());
            ObjectNode entry =
                set.isPresent()
                    ? document.add(milestone, view.evaluate(set.get()))
                    : document.add(milestone);
            view.latestDecision(milestone.code()).ifPresent(decision -> latest(entry, decision));
          }
          ObjectNode json = Records.object();
          json.put("asOf", view.asOf().toString());
          json.put("engineVersion", evenside.decision.Engine.VERSION);
          json.set("milestones", document.milestones());
          json.set("cautions", document.cautions());
          return json;
        });
  }

  private static void latest(ObjectNode entry, StoredDecision decision) {
    ObjectNode json = entry.putObject("latestDecision");
    json.put("decisionId", decision.id().toString());
    json.put("asOf", decision.asOf().toString());
    json.put("outcome", decision.outcome());
    json.putObject("criteriaSet")
        .put("id", decision.criteriaSet())
        .put("version", decision.criteriaVersion());
  }

  private List<CriteriaSet> usualSets() {
    return records.published().milestones().stream()
        .flatMap(milestone -> records.published().usualSet(milestone.code()).stream())
        .toList();
  }

  /** A question about one case, answered on one state of the record. */
  private interface Answer {
    ObjectNode of(View view);
  }

  private Document about(String clinic, String caseId, Optional<LocalDate> asked, Answer answer) {
    ObjectNode json =
        records.store().read(reading -> answer.of(view(reading, clinic, caseId, asked)));
    json.put("schemaVersion", records.schemaVersion());
    json.put("caseId", caseId);
    return Document.of(json);
  }

  private View view(Reading reading, String clinic, String caseId, Optional<LocalDate> asked) {
    StoredCase stored = Records.known(reading, clinic, caseId);
    KneeCase kneeCase = Cases.read(stored);
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

package evenside.document;

import evenside.criteria.Finding;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.plan.Adherence;
import evenside.plan.Exercise;
import evenside.plan.Modifier;
import evenside.plan.Outlook;
import evenside.plan.Plan;
import evenside.progression.Advice;
import evenside.quantity.Quantity;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** A proposed plan as JSON. */
public final class PlanDocument {
  private final CanonicalWriter json;
  private final FindingDocument findings;
  private final OutlookDocument outlooks;

  private PlanDocument(CanonicalWriter json, LocalDate asOf, LocalDate surgery) {
    this.json = json;
    this.findings = new FindingDocument(json, asOf);
    this.outlooks = new OutlookDocument(surgery);
  }

  /**
   * The answer.
   *
   * @param surgery day of the reconstruction
   */
  public static Document of(String schemaVersion, String caseId, Plan plan, LocalDate surgery) {
    LocalDate asOf = plan.decision().asOf();
    return Document.written(
        json -> new PlanDocument(json, asOf, surgery).plan(schemaVersion, caseId, plan));
  }

  private void plan(String schemaVersion, String caseId, Plan plan) {
    Decision decision = plan.decision();
    json.object().put("asOf", decision.asOf()).put("caseId", caseId);
    DecisionDocument.cautions(json.name("cautions"), decision.cautions());
    DecisionDocument.criteriaSet(json.name("criteriaSet"), decision.criteriaSet());
    earliestByTime(decision.finding()).ifPresent(day -> json.put("earliestByTime", day));
    json.put("engineVersion", Engine.VERSION);
    json.name("items").array(plan.items(), (to, item) -> item(item, plan.advice()));
    json.name("modifiers").array(plan.modifiers(), PlanDocument::modifier);
    json.put("outcome", decision.outcome().code());
    if (plan.phase() != null) {
      json.name("phase").object().put("code", plan.phase().code());
      json.put("title", plan.phase().title()).put("usualTiming", plan.phase().usualTiming()).end();
    }
    json.put("proposedBy", "software").put("schemaVersion", schemaVersion);
    json.put("summary", decision.summary());
    if (plan.advice() != null) {
      training(plan.advice());
    }
    json.end();
  }

  /** The last of the days from which the time criteria are met; empty if none is open. */
  static Optional<LocalDate> earliestByTime(Finding root) {
    return root.leaves()
        .map(Finding::toMeet)
        .filter(Objects::nonNull)
        .map(toMeet -> toMeet.date())
        .filter(Objects::nonNull)
        .max(Comparator.naturalOrder());
  }

  private void item(Plan.Item item, @Nullable Advice advice) {
    Outlook outlook = item.outlook();
    json.object().name("deficits").array(item.deficits(), PlanDocument::deficit);
    json.name("finding");
    findings.finding(item.finding());
    json.name("focusAreas").array(item.work(), (to, work) -> work(work, advice));
    if (outlook.gate() != null) {
      json.put("from", outlook.gate());
    }
    json.put("kind", item.kind().code()).putIfAny("measure", item.measure());
    json.name("modifiers").array(item.modifiers(), (to, modifier) -> to.text(modifier.code()));
    if (item.oneOf() != null) {
      json.name("oneOf").object().put("id", item.oneOf().id());
      json.put("title", item.oneOf().title()).put("type", item.oneOf().type()).end();
    }
    outlooks.write(json.name("outlook"), outlook);
    if (item.retest() != null) {
      retest(item, item.retest());
    }
    json.end();
  }

  private static void deficit(CanonicalWriter json, Plan.Deficit deficit) {
    Quantity needed = deficit.needed();
    json.object();
    FindingDocument.quantity(json.name("missing"), deficit.missing());
    json.name("needed").object().put("comparator", deficit.comparator().symbol());
    json.put("unit", needed.unit()).put("value", needed.value()).end();
    FindingDocument.quantity(json.name("now"), deficit.now());
    ProtocolDocument.write(json.name("protocol"), deficit.protocol());
    json.end();
  }

  private void work(Plan.Work work, @Nullable Advice advice) {
    json.object().put("code", work.area().code());
    json.name("exercises").array(work.exercises(), (to, choice) -> exercise(choice, advice));
    json.put("mark", work.area().mark()).put("note", work.area().note());
    json.put("title", work.area().title()).end();
  }

  private void exercise(Plan.Choice choice, @Nullable Advice advice) {
    Exercise exercise = choice.exercise();
    json.object();
    if (advice != null) {
      work(json.name("advice"), advice, work -> isFor(work, exercise));
    }
    json.put("code", exercise.code());
    heldBack(choice.heldBack());
    json.put("mark", exercise.mark()).put("phase", exercise.phase());
    json.put("therapistPresent", exercise.therapist()).put("title", exercise.title());
    json.put("usualDose", exercise.usualDose()).put("usuallyLater", choice.later()).end();
  }

  /** What the rules say about the next training, in short; the whole is served as advice. */
  private void training(Advice advice) {
    json.name("training").object().put("message", advice.message());
    json.put("outcome", advice.outcome().code());
    json.put("redFlagsStanding", advice.standing().size()).name("running");
    work(json, advice, work -> work.key().family().equals(Adherence.RUNNING));
    json.put("sessionsUsed", advice.entries());
    advice.urgency().ifPresent(urgency -> json.put("urgency", urgency.code()));
    json.end();
  }

  private static boolean isFor(Advice.Work work, Exercise exercise) {
    return work.key().code().equals(exercise.code())
        || (work.key().family().equals(Adherence.RUNNING)
            && exercise.family().equals(Adherence.RUNNING));
  }

  private static void work(CanonicalWriter json, Advice advice, Predicate<Advice.Work> wanted) {
    json.array(advice.work().stream().filter(wanted).toList(), PlanDocument::work);
  }

  private static void work(CanonicalWriter json, Advice.Work work) {
    json.object().put("code", work.key().code()).put("lastOn", work.lastOn());
    if (work.level() > 0) {
      json.put("level", work.level());
    }
    if (work.next() != null) {
      AdviceDocument.next(json.name("next"), work.next());
    }
    json.put("outcome", work.outcome().code());
    if (work.key().side() != null) {
      json.put("side", work.key().side().code());
    }
    json.end();
  }

  private void retest(Plan.Item item, Plan.Retest retest) {
    json.name("retest").object().put("basis", retest.basis());
    if (retest.beyondError() != null) {
      json.put("beyondError", retest.beyondError());
    }
    heldBack(item.testHeldBack());
    json.put("mark", retest.mark()).put("therapistPresent", item.withTherapist());
    json.put("usual", retest.usual()).put("usualWeeks", retest.usualWeeks()).end();
  }

  private void heldBack(@Nullable Modifier by) {
    if (by != null) {
      json.name("heldBack").object().put("by", by.code()).put("text", by.text()).end();
    }
  }

  private static void modifier(CanonicalWriter json, Modifier modifier) {
    json.object().put("code", modifier.code()).put("mark", modifier.mark());
    json.put("text", modifier.text()).put("withholds", modifier.withholds()).end();
  }
}

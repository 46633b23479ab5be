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
import java.time.LocalDate;
import java.util.Comparator;
import java.util.Objects;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A proposed plan as JSON. */
public final class PlanDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final FindingDocument findings;
  private final OutlookDocument outlooks;

  private PlanDocument(LocalDate asOf, LocalDate surgery) {
    this.findings = new FindingDocument(asOf);
    this.outlooks = new OutlookDocument(surgery);
  }

  public static ObjectNode of(Plan plan, LocalDate surgery) {
    return new PlanDocument(plan.decision().asOf(), surgery).plan(plan);
  }

  private ObjectNode plan(Plan plan) {
    Decision decision = plan.decision();
    ObjectNode json = JSON.objectNode();
    json.put("asOf", decision.asOf().toString());
    json.put("engineVersion", Engine.VERSION);
    json.put("proposedBy", "software");
    json.set("criteriaSet", DecisionDocument.criteriaSet(decision.criteriaSet()));
    json.put("outcome", decision.outcome().code());
    json.put("summary", decision.summary());
    ArrayNode items = json.putArray("items");
    plan.items().forEach(item -> items.add(item(item, plan.advice())));
    ArrayNode modifiers = json.putArray("modifiers");
    plan.modifiers().forEach(modifier -> modifiers.add(modifier(modifier)));
    if (plan.phase() != null) {
      json.putObject("phase")
          .put("code", plan.phase().code())
          .put("title", plan.phase().title())
          .put("usualTiming", plan.phase().usualTiming());
    }
    if (plan.advice() != null) {
      json.set("training", training(plan.advice()));
    }
    earliestByTime(decision.finding()).ifPresent(day -> json.put("earliestByTime", day.toString()));
    json.set("cautions", DecisionDocument.cautions(decision.cautions()));
    return json;
  }

  /** The last of the days from which the time criteria are met; empty if none is open. */
  static java.util.Optional<LocalDate> earliestByTime(Finding root) {
    return root.leaves()
        .map(Finding::toMeet)
        .filter(Objects::nonNull)
        .map(toMeet -> toMeet.date())
        .filter(Objects::nonNull)
        .max(Comparator.naturalOrder());
  }

  private ObjectNode item(Plan.Item item, @Nullable Advice advice) {
    ObjectNode json = JSON.objectNode();
    json.put("kind", item.kind().code());
    json.set("finding", findings.finding(item.finding()));
    if (item.measure() != null) {
      json.put("measure", item.measure());
    }
    if (item.oneOf() != null) {
      json.putObject("oneOf")
          .put("id", item.oneOf().id())
          .put("title", item.oneOf().title())
          .put("type", item.oneOf().type());
    }
    ArrayNode deficits = json.putArray("deficits");
    item.deficits().forEach(deficit -> deficits.add(deficit(deficit)));
    ArrayNode areas = json.putArray("focusAreas");
    item.work().forEach(work -> areas.add(work(work, advice)));
    Outlook outlook = item.outlook();
    json.set("outlook", outlooks.of(outlook));
    if (outlook.gate() != null) {
      json.put("from", outlook.gate().toString());
    }
    if (item.retest() != null) {
      json.set("retest", retest(item, item.retest()));
    }
    ArrayNode modifiers = json.putArray("modifiers");
    item.modifiers().forEach(modifier -> modifiers.add(modifier.code()));
    return json;
  }

  private static ObjectNode deficit(Plan.Deficit deficit) {
    ObjectNode json = JSON.objectNode();
    json.set("protocol", FindingDocument.protocol(deficit.protocol()));
    ObjectNode needed = FindingDocument.quantity(deficit.needed());
    json.set("needed", needed.put("comparator", deficit.comparator().symbol()));
    json.set("now", FindingDocument.quantity(deficit.now()));
    json.set("missing", FindingDocument.quantity(deficit.missing()));
    return json;
  }

  private static ObjectNode work(Plan.Work work, @Nullable Advice advice) {
    ObjectNode json = JSON.objectNode();
    json.put("code", work.area().code()).put("title", work.area().title());
    json.put("note", work.area().note()).put("mark", work.area().mark());
    ArrayNode exercises = json.putArray("exercises");
    for (Plan.Choice choice : work.exercises()) {
      ObjectNode exercise = exercises.addObject();
      exercise.put("code", choice.exercise().code()).put("title", choice.exercise().title());
      exercise.put("phase", choice.exercise().phase());
      exercise.put("usualDose", choice.exercise().usualDose());
      exercise.put("therapistPresent", choice.exercise().therapist());
      exercise.put("mark", choice.exercise().mark());
      exercise.put("usuallyLater", choice.later());
      heldBack(exercise, choice.heldBack());
      if (advice != null) {
        exercise.set("advice", tracks(advice, track -> isFor(track, choice.exercise())));
      }
    }
    return json;
  }

  /** What the rules say about the next training, in short; the whole is served as advice. */
  private static ObjectNode training(Advice advice) {
    ObjectNode json = JSON.objectNode();
    json.put("outcome", advice.outcome().code());
    json.put("message", advice.message());
    advice.urgency().ifPresent(urgency -> json.put("urgency", urgency.code()));
    json.put("redFlagsStanding", advice.standing().size());
    json.put("sessionsUsed", advice.entries());
    json.set("running", tracks(advice, track -> track.key().family().equals(Adherence.RUNNING)));
    return json;
  }

  private static boolean isFor(Advice.Track track, Exercise exercise) {
    return track.key().code().equals(exercise.code())
        || (track.key().family().equals(Adherence.RUNNING)
            && exercise.family().equals(Adherence.RUNNING));
  }

  private static ArrayNode tracks(Advice advice, Predicate<Advice.Track> wanted) {
    ArrayNode array = JSON.arrayNode();
    for (Advice.Track track : advice.tracks()) {
      if (wanted.test(track)) {
        array.add(track(track));
      }
    }
    return array;
  }

  private static ObjectNode track(Advice.Track track) {
    ObjectNode json = JSON.objectNode();
    json.put("code", track.key().code());
    if (track.key().side() != null) {
      json.put("side", track.key().side().code());
    }
    json.put("lastOn", track.lastOn().toString());
    json.put("outcome", track.outcome().code());
    if (track.level() > 0) {
      json.put("level", track.level());
    }
    if (track.next() != null) {
      json.set("next", AdviceDocument.next(track.next()));
    }
    return json;
  }

  private static ObjectNode retest(Plan.Item item, Plan.Retest retest) {
    ObjectNode json = JSON.objectNode();
    json.put("usual", retest.usual().toString());
    json.put("usualWeeks", retest.usualWeeks());
    json.put("mark", retest.mark());
    if (retest.beyondError() != null) {
      json.put("beyondError", retest.beyondError().toString());
    }
    json.put("basis", retest.basis());
    json.put("therapistPresent", item.withTherapist());
    heldBack(json, item.testHeldBack());
    return json;
  }

  private static void heldBack(ObjectNode json, @Nullable Modifier by) {
    if (by != null) {
      json.putObject("heldBack").put("by", by.code()).put("text", by.text());
    }
  }

  private static ObjectNode modifier(Modifier modifier) {
    return JSON.objectNode()
        .put("code", modifier.code())
        .put("text", modifier.text())
        .put("withholds", modifier.withholds())
        .put("mark", modifier.mark());
  }
}

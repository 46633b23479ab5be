package evenside.document;

import evenside.decision.Caution;
import evenside.decision.Engine;
import evenside.progression.Advice;
import evenside.progression.Hit;
import evenside.progression.InputCatalogue;
import evenside.progression.Known;
import evenside.progression.Progression;
import evenside.progression.Unanswered;
import evenside.signs.EffusionGrade;
import java.util.List;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Advice on the next training, as JSON. */
public final class AdviceDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final InputCatalogue inputs;

  public AdviceDocument(InputCatalogue inputs) {
    this.inputs = inputs;
  }

  /** Everything that the rules gave; equal for equal records, with no time of day. */
  public ObjectNode of(Advice advice, List<Caution> cautions) {
    ObjectNode json = JSON.objectNode();
    json.put("asOf", advice.asOf().toString());
    json.put("engineVersion", Engine.VERSION);
    json.put("outcome", advice.outcome().code());
    json.put("message", advice.message());
    advice.urgency().ifPresent(urgency -> json.put("urgency", urgency.code()));
    json.put("redFlagsComplete", advice.redFlagsComplete());
    json.set("standing", hits(advice.standing()));
    ArrayNode tracks = json.putArray("tracks");
    advice.tracks().forEach(track -> tracks.add(track(track)));
    json.set("unanswered", unanswered(advice.unanswered()));
    json.put("clinicianReview", !advice.reviewReasons().isEmpty());
    ArrayNode reasons = json.putArray("reviewReasons");
    advice.reviewReasons().forEach(reasons::add);
    json.set("sets", sets(advice));
    json.put("sessionsUsed", advice.entries());
    ArrayNode array = json.putArray("cautions");
    cautions.forEach(caution -> array.add(DecisionDocument.caution(caution)));
    return json;
  }

  private ObjectNode track(Advice.Track track) {
    ObjectNode json = JSON.objectNode();
    json.put("family", track.key().family()).put("code", track.key().code());
    Progression plan = track.plan();
    if (plan != null) {
      json.put("version", plan.version());
    }
    if (track.key().side() != null) {
      json.put("side", track.key().side().code());
    }
    json.put("lastSession", track.lastSession()).put("lastOn", track.lastOn().toString());
    json.put("outcome", track.outcome().code());
    if (track.level() > 0) {
      json.put("level", track.level());
    }
    if (track.next() != null) {
      json.set("next", next(track.next()));
    }
    json.put("floorReached", track.floorReached());
    json.put("programmeCompleted", track.programmeCompleted());
    json.set("reasons", hits(track.reasons()));
    json.set("unanswered", unanswered(track.unanswered()));
    ArrayNode hints = json.putArray("hints");
    if (plan != null) {
      plan.hints().forEach(h -> hints.addObject().put("text", h.text()).put("mark", h.mark()));
    }
    return json;
  }

  static ObjectNode next(Advice.Next next) {
    ObjectNode json = JSON.objectNode();
    if (next.level() > 0) {
      json.put("level", next.level());
    }
    json.put("dose", next.dose());
    json.put("earliestOn", next.earliestOn().toString());
    return json.put("restDays", next.restDays());
  }

  private ArrayNode hits(List<Hit> hits) {
    ArrayNode array = JSON.arrayNode();
    hits.forEach(hit -> array.add(hit(hit)));
    return array;
  }

  private ObjectNode hit(Hit hit) {
    ObjectNode json = JSON.objectNode();
    json.put("rule", hit.rule().id());
    json.put("set", hit.set().id()).put("version", hit.set().version());
    json.put("outcome", hit.outcome().code()).put("counted", hit.counted());
    json.put("text", hit.text());
    if (hit.rule().urgency() != null) {
      json.put("urgency", hit.rule().urgency().code());
    }
    ArrayNode seen = json.putArray("inputs");
    hit.inputs().forEach(input -> seen.add(seen(input)));
    json.put("session", hit.session());
    if (hit.rule().source() != null) {
      json.put("source", hit.rule().source());
    }
    return json.put("mark", hit.rule().mark());
  }

  private ObjectNode seen(Hit.Seen seen) {
    ObjectNode json = JSON.objectNode().put("input", seen.input());
    Known value = seen.value();
    if (value instanceof Known.Flag flag) {
      json.put("value", flag.holds());
    } else if (value instanceof Known.Choice choice) {
      json.put("value", choice.word());
    } else if (value instanceof Known.Range range && range.isExact()) {
      boolean grade = inputs.get(seen.input()).kind() == InputCatalogue.Kind.GRADE;
      if (grade) {
        json.put("value", EffusionGrade.ofRank((int) range.low()).code());
      } else {
        json.put("value", range.low());
      }
    } else if (value instanceof Known.Range range) {
      between(json, range);
    }
    ArrayNode sessions = json.putArray("sessions");
    seen.sessions().forEach(sessions::add);
    return json;
  }

  /** Half known: the bounds that are known. */
  private static void between(ObjectNode json, Known.Range range) {
    if (Double.isFinite(range.low())) {
      json.put("atLeast", range.low());
    }
    if (Double.isFinite(range.high())) {
      json.put("atMost", range.high());
    }
  }

  private static ArrayNode unanswered(List<Unanswered> open) {
    ArrayNode array = JSON.arrayNode();
    for (Unanswered one : open) {
      array
          .addObject()
          .put("input", one.input())
          .put("question", one.question())
          .put("session", one.session());
    }
    return array;
  }

  private static ArrayNode sets(Advice advice) {
    ArrayNode array = JSON.arrayNode();
    for (Progression set : advice.sets()) {
      array
          .addObject()
          .put("id", set.id())
          .put("version", set.version())
          .put("counted", advice.countedSets().contains(set.name()))
          .put("sha256", set.sha256());
    }
    return array;
  }
}

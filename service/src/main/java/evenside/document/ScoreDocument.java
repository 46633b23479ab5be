package evenside.document;

import evenside.quantity.Quantity;
import evenside.questionnaire.Instrument;
import evenside.questionnaire.Outcome;
import evenside.questionnaire.ScoreOrigin;
import evenside.questionnaire.Shown;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Questionnaire scores, each with where it comes from, as JSON. */
public final class ScoreDocument {
  private ScoreDocument() {}

  public static ArrayNode of(List<ScoreOrigin> scores) {
    ArrayNode array = JsonNodeFactory.instance.arrayNode();
    scores.forEach(score -> array.add(one(score)));
    return array;
  }

  private static ObjectNode one(ScoreOrigin origin) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("measure", origin.outcome().measure());
    if (origin.outcome() instanceof Outcome.Scored scored) {
      Quantity score = new Quantity(scored.score(), Instrument.UNIT);
      json.set("score", FindingDocument.quantity(score));
      json.put("display", Shown.oneDecimal(scored.score()).toPlainString());
      json.put("valueSource", origin.valueSource());
    }
    json.set("questionnaire", origin(origin));
    if (origin.outcome() instanceof Outcome.NotScorable open) {
      json.putObject("reason").put("code", "not-scorable").put("text", open.count().toString());
    }
    return json;
  }

  static ObjectNode origin(ScoreOrigin origin) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("instrument", origin.instrument()).put("version", origin.version());
    Outcome.Count count = count(origin.outcome());
    if (count != null) {
      json.put("missingRule", origin.missingRule());
      json.put("answered", count.answered());
      json.put("needed", count.needed());
      json.put("items", count.items());
    }
    if (!origin.bands().isEmpty()) {
      ArrayNode bands = json.putArray("bands");
      origin
          .bands()
          .forEach(in -> bands.addObject().put("bandSet", in.bandSet()).put("band", in.band()));
    }
    return json;
  }

  private static Outcome.@Nullable Count count(Outcome outcome) {
    return outcome instanceof Outcome.Scored scored
        ? scored.count()
        : ((Outcome.NotScorable) outcome).count();
  }
}

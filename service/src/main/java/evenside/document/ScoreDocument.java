package evenside.document;

import evenside.questionnaire.Instrument;
import evenside.questionnaire.Outcome;
import evenside.questionnaire.ScoreOrigin;
import evenside.questionnaire.Shown;
import org.jspecify.annotations.Nullable;

/** Questionnaire scores, each with where it comes from, as JSON. */
final class ScoreDocument {
  private ScoreDocument() {}

  static void write(CanonicalWriter json, ScoreOrigin origin) {
    json.object();
    if (origin.outcome() instanceof Outcome.Scored scored) {
      json.put("display", Shown.oneDecimal(scored.score()).toPlainString());
    }
    json.put("measure", origin.outcome().measure());
    origin(json.name("questionnaire"), origin);
    if (origin.outcome() instanceof Outcome.NotScorable open) {
      json.name("reason").object().put("code", "not-scorable");
      json.put("text", open.count().toString()).end();
    }
    if (origin.outcome() instanceof Outcome.Scored scored) {
      FindingDocument.quantity(json.name("score"), scored.score(), Instrument.UNIT);
      json.put("valueSource", origin.valueSource());
    }
    json.end();
  }

  static void origin(CanonicalWriter json, ScoreOrigin origin) {
    Outcome.Count count = count(origin.outcome());
    json.object();
    if (count != null) {
      json.put("answered", count.answered());
    }
    if (!origin.bands().isEmpty()) {
      json.name("bands").array(origin.bands(), ScoreDocument::band);
    }
    json.put("instrument", origin.instrument());
    if (count != null) {
      json.put("items", count.items()).put("missingRule", origin.missingRule());
      json.put("needed", count.needed());
    }
    json.put("version", origin.version()).end();
  }

  private static void band(CanonicalWriter json, ScoreOrigin.InBand in) {
    json.object().put("band", in.band()).put("bandSet", in.bandSet()).end();
  }

  private static Outcome.@Nullable Count count(Outcome outcome) {
    return outcome instanceof Outcome.Scored scored
        ? scored.count()
        : ((Outcome.NotScorable) outcome).count();
  }
}

package evenside.intake;

import evenside.questionnaire.Coding;
import evenside.questionnaire.Instrument;
import evenside.questionnaire.Instruments;
import evenside.questionnaire.Item;
import evenside.questionnaire.MissingRule;
import evenside.questionnaire.Sheet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Reads a filled-in questionnaire that its schema and rules have already accepted. */
final class SheetReader {
  private final Instruments instruments;

  SheetReader(Instruments instruments) {
    this.instruments = instruments;
  }

  Sheet read(JsonNode json) {
    Instrument instrument = instruments.get(json.path("instrument").asString());
    return read(json, instrument, rule(json, instrument).orElseThrow());
  }

  static Sheet read(JsonNode json, Instrument instrument, MissingRule rule) {
    Map<String, Double> answers = new LinkedHashMap<>();
    for (JsonNode response : json.path("responses")) {
      Item item = instrument.item(response.path("item").asString()).orElseThrow();
      answers.put(item.number(), item.scored(response.path("answer").asDouble(), coding(json)));
    }
    Map<String, Double> reported = new LinkedHashMap<>();
    for (JsonNode score : json.path("scores")) {
      reported.put(score.path("measure").asString(), score.path("score").asDouble());
    }
    return new Sheet(instrument, rule, answers, reported);
  }

  /** The rule for missing items that a sheet names, or the one in force. */
  static Optional<MissingRule> rule(JsonNode json, Instrument instrument) {
    return instrument.missingRule(json.path("missingRule").asString(""));
  }

  private static Coding coding(JsonNode json) {
    return json.path("coding").asString("").equals(Coding.SCORED.code())
        ? Coding.SCORED
        : Coding.PRINTED;
  }
}

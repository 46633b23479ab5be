package evenside.intake;

import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.quantity.Quantity;
import evenside.questionnaire.Flag;
import evenside.questionnaire.Instrument;
import evenside.questionnaire.Instruments;
import evenside.questionnaire.Item;
import evenside.questionnaire.MissingRule;
import evenside.questionnaire.Outcome;
import evenside.questionnaire.ScoreRule;
import evenside.questionnaire.Sheet;
import evenside.questionnaire.Shown;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/** What the schema cannot say about the questionnaires of a battery. */
final class SheetRules {
  private final MeasureCatalogue catalogue;
  private final Instruments instruments;
  private final RuleFaults faults;
  private final RuleFaults warnings;

  SheetRules(
      MeasureCatalogue catalogue, Instruments instruments, RuleFaults faults, RuleFaults warnings) {
    this.catalogue = catalogue;
    this.instruments = instruments;
    this.faults = faults;
    this.warnings = warnings;
  }

  void check(JsonNode sheets) {
    Map<String, String> seen = new HashMap<>();
    for (int i = 0; i < sheets.size(); i++) {
      JsonNode code = sheets.path(i).path("instrument");
      if (!code.isString()) {
        continue;
      }
      String pointer = "/results/questionnaire/" + i;
      Optional<Instrument> instrument = instruments.find(code.asString());
      if (instrument.isEmpty()) {
        faults.add(
            pointer + "/instrument",
            RuleCode.INSTRUMENT_UNKNOWN,
            "there is no such instrument",
            listed(instruments.codes()));
        continue;
      }
      String first = seen.putIfAbsent(code.asString(), pointer);
      if (first == null) {
        new OneSheet(sheets.path(i), pointer, instrument.get()).check();
      } else {
        faults.add(
            pointer,
            RuleCode.RESULT_DUPLICATE,
            "this instrument stands at "
                + faults.named(first)
                + " already; send its answers and scores together");
      }
    }
  }

  private static String listed(Collection<String> codes) {
    return codes.stream().sorted().collect(Collectors.joining(", "));
  }

  /** The rules for one filled-in questionnaire. */
  private final class OneSheet {
    private final JsonNode json;
    private final String pointer;
    private final Instrument instrument;

    private OneSheet(JsonNode json, String pointer, Instrument instrument) {
      this.json = json;
      this.pointer = pointer;
      this.instrument = instrument;
    }

    private void check() {
      int before = faults.all().size();
      Optional<MissingRule> rule = SheetReader.rule(json, instrument);
      if (rule.isEmpty()) {
        faults.add(
            pointer + "/missingRule",
            RuleCode.MISSING_RULE_UNKNOWN,
            "the instrument has no such rule for missing items",
            listed(instrument.missingRules().stream().map(MissingRule::code).toList()));
      }
      answers();
      scores();
      if (rule.isPresent() && isReadable() && faults.all().size() == before) {
        Sheet sheet = SheetReader.read(json, instrument, rule.get());
        mismatches(sheet);
        flags(sheet);
      }
    }

    /** False if something is not of its type, which the schema has said. */
    private boolean isReadable() {
      return json.path("responses")
              .valueStream()
              .allMatch(one -> one.path("item").isString() && one.path("answer").isNumber())
          && json.path("scores")
              .valueStream()
              .allMatch(one -> one.path("measure").isString() && one.path("score").isNumber());
    }

    private void answers() {
      Set<String> seen = new HashSet<>();
      boolean anyScored = false;
      for (int i = 0; i < json.path("responses").size(); i++) {
        JsonNode response = json.path("responses").path(i);
        if (response.path("item").isString()) {
          String number = response.path("item").asString();
          Optional<Item> item = instrument.item(number);
          answer(response, item, !seen.add(number), pointer + "/responses/" + i);
          anyScored |= item.isEmpty() || instrument.isScored(item.get());
        }
      }
      if (!seen.isEmpty() && !anyScored) {
        faults.add(
            pointer + "/responses",
            RuleCode.ANSWERS_NONE_SCORED,
            "no score of the instrument uses any of these items");
      }
    }

    private void answer(JsonNode response, Optional<Item> item, boolean again, String at) {
      if (item.isEmpty()) {
        faults.add(
            at + "/item",
            RuleCode.ITEM_UNKNOWN,
            "the instrument has no such item",
            String.join(", ", instrument.items().stream().map(Item::number).toList()));
        return;
      }
      if (again) {
        faults.add(
            at + "/item",
            RuleCode.ITEM_DUPLICATE,
            "this item is answered already",
            "one answer for each of " + instrument.items().size() + " items");
      }
      JsonNode answer = response.path("answer");
      if (answer.isNumber() && !item.get().allows(answer.asDouble())) {
        faults.add(
            at + "/answer",
            RuleCode.ANSWER_NOT_ALLOWED,
            "not an answer of item " + item.get().number(),
            allowed(item.get()));
      }
    }

    private static String allowed(Item item) {
      return item.allowed().stream().map(Quantity::text).collect(Collectors.joining(", "));
    }

    private void scores() {
      Map<String, String> seen = new HashMap<>();
      for (int i = 0; i < json.path("scores").size(); i++) {
        JsonNode score = json.path("scores").path(i);
        if (!score.path("measure").isString()) {
          continue;
        }
        String measure = score.path("measure").asString();
        String at = pointer + "/scores/" + i;
        String first = seen.putIfAbsent(measure, at);
        if (instrument.score(measure).isEmpty()) {
          faults.add(
              at + "/measure",
              RuleCode.SCORE_NOT_OF_INSTRUMENT,
              "the instrument does not give this measure",
              listed(instrument.scores().stream().map(ScoreRule::measure).toList()));
        } else if (first != null) {
          faults.add(
              at,
              RuleCode.RESULT_DUPLICATE,
              "this measure has a reported score at " + faults.named(first) + " already");
        } else if (score.path("score").isNumber()) {
          plausible(score.path("score").asDouble(), at + "/score", catalogue.get(measure));
        }
      }
    }

    private void plausible(double score, String at, Measure measure) {
      if (score < measure.least() || score > measure.most()) {
        faults.add(
            at,
            RuleCode.VALUE_IMPLAUSIBLE,
            "outside the scale of " + measure.title(),
            Quantity.text(measure.least()) + " to " + Quantity.text(measure.most()));
      }
    }

    private void mismatches(Sheet sheet) {
      JsonNode scores = json.path("scores");
      for (int i = 0; i < scores.size(); i++) {
        ScoreRule rule = instrument.score(scores.path(i).path("measure").asString()).orElseThrow();
        double reported = scores.path(i).path("score").asDouble();
        Optional<Outcome> computed = sheet.computed(rule);
        if (computed.isPresent()) {
          mismatch(reported, computed.get(), pointer + "/scores/" + i + "/score");
        }
      }
    }

    private void mismatch(double reported, Outcome computed, String at) {
      if (computed instanceof Outcome.NotScorable open) {
        faults.add(
            at,
            RuleCode.SCORE_MISMATCH,
            "too few answers to check the score by; send all that are needed, or the score alone",
            open.count().toString());
      } else if (computed instanceof Outcome.Scored scored
          && !Shown.agree(reported, scored.score())) {
        faults.add(
            at,
            RuleCode.SCORE_MISMATCH,
            "the answers give another score, compared to one decimal",
            Shown.oneDecimal(scored.score()).toPlainString());
      }
    }

    private void flags(Sheet sheet) {
      JsonNode responses = json.path("responses");
      for (int i = 0; i < responses.size(); i++) {
        String item = responses.path(i).path("item").asString();
        double answer = sheet.answers().getOrDefault(item, Double.POSITIVE_INFINITY);
        for (Flag flag : instrument.flags()) {
          if (flag.item().equals(item) && answer <= flag.atMost()) {
            warnings.add(
                pointer + "/responses/" + i + "/answer", RuleCode.ANSWER_FLAGGED, flag.text());
          }
        }
      }
    }
  }
}

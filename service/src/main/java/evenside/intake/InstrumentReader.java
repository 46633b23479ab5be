package evenside.intake;

import evenside.measure.Better;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.quantity.Decimals;
import evenside.questionnaire.BandSet;
import evenside.questionnaire.Flag;
import evenside.questionnaire.Formula;
import evenside.questionnaire.Instrument;
import evenside.questionnaire.Instruments;
import evenside.questionnaire.Item;
import evenside.questionnaire.MissingRule;
import evenside.questionnaire.ScoreRule;
import evenside.schemas.Contract;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Reads the published questionnaires and holds them against the catalogue of measures. */
public final class InstrumentReader {
  private static final String FAMILY = "questionnaire";

  private final MeasureCatalogue catalogue;

  public InstrumentReader(MeasureCatalogue catalogue) {
    this.catalogue = catalogue;
  }

  /**
   * All questionnaires of the contract.
   *
   * @throws IllegalStateException if an instrument and the catalogue do not fit each other
   */
  public Instruments instruments(Contract contract) {
    List<Instrument> instruments = new ArrayList<>();
    Set<String> given = new HashSet<>();
    for (JsonNode json : contract.instruments()) {
      String code = json.path("code").asString();
      for (JsonNode score : json.path("scores")) {
        fits(score, code);
        if (!given.add(score.path("measure").asString())) {
          throw misfit(code, score, "is given by two instruments");
        }
      }
      instruments.add(instrument(json));
    }
    for (Measure measure : catalogue.all()) {
      if (measure.family().equals(FAMILY) && !given.contains(measure.code())) {
        throw new IllegalStateException("no instrument gives the measure " + measure.code());
      }
    }
    return new Instruments(instruments);
  }

  private void fits(JsonNode score, String code) {
    Measure measure =
        catalogue
            .find(score.path("measure").asString())
            .orElseThrow(() -> misfit(code, score, "is not in the catalogue"));
    Better better = Better.valueOf(score.path("better").asString().toUpperCase(Locale.ROOT));
    if (!measure.family().equals(FAMILY) || !measure.unit().equals(Instrument.UNIT)) {
      throw misfit(code, score, "is no questionnaire measure in the catalogue");
    }
    if (measure.better() != better
        || measure.least() != score.path("range").path("min").asDouble()
        || measure.most() != score.path("range").path("max").asDouble()) {
      throw misfit(code, score, "has another range or direction in the catalogue");
    }
  }

  private static IllegalStateException misfit(String code, JsonNode score, String how) {
    String measure = score.path("measure").asString();
    return new IllegalStateException("instrument " + code + ": measure " + measure + " " + how);
  }

  private static Instrument instrument(JsonNode json) {
    Map<String, Item> items = new LinkedHashMap<>();
    json.path("items").forEach(item -> items.put(item.path("item").asString(), item(item)));
    List<ScoreRule> scores = new ArrayList<>();
    json.path("scores").forEach(score -> scores.add(score(score, items)));
    List<MissingRule> rules = new ArrayList<>();
    json.path("missingRules").forEach(rule -> rules.add(missingRule(rule)));
    List<Flag> flags = new ArrayList<>();
    json.path("flags").forEach(flag -> flags.add(flag(flag)));
    List<BandSet> bandSets = new ArrayList<>();
    json.path("bandSets").forEach(set -> bandSets.add(bandSet(set)));
    return new Instrument(
        json.path("code").asString(),
        json.path("version").asString(),
        List.copyOf(items.values()),
        scores,
        rules,
        flags,
        bandSets);
  }

  private static Item item(JsonNode json) {
    List<Double> allowed = new ArrayList<>();
    if (json.has("values")) {
      json.path("values").forEach(value -> allowed.add(value.asDouble()));
    } else {
      double from = json.path("from").asDouble();
      double step = json.path("step").asDouble();
      long steps = Math.round((json.path("to").asDouble() - from) / step);
      for (int i = 0; i <= steps; i++) {
        allowed.add(Decimals.exact(from + i * step));
      }
    }
    return new Item(json.path("item").asString(), allowed, json.path("reversed").asBoolean(false));
  }

  private static ScoreRule score(JsonNode json, Map<String, Item> items) {
    List<Item> used = new ArrayList<>();
    for (JsonNode number : json.path("items")) {
      Item item = items.get(number.asString());
      if (item == null) {
        throw new IllegalStateException("a score uses the unknown item " + number.asString());
      }
      used.add(item);
    }
    return new ScoreRule(
        json.path("measure").asString(), used, Formula.of(json.path("formula").asString()));
  }

  private static MissingRule missingRule(JsonNode json) {
    Map<String, Integer> needed = new LinkedHashMap<>();
    for (JsonNode one : json.path("needed")) {
      needed.put(one.path("measure").asString(), one.path("answered").asInt());
    }
    return new MissingRule(json.path("code").asString(), needed);
  }

  private static Flag flag(JsonNode json) {
    return new Flag(
        json.path("code").asString(),
        json.path("item").asString(),
        json.path("atMost").asDouble(),
        json.path("text").asString());
  }

  private static BandSet bandSet(JsonNode json) {
    List<BandSet.Band> bands = new ArrayList<>();
    for (JsonNode band : json.path("bands")) {
      bands.add(new BandSet.Band(band.path("band").asString(), band.path("from").asDouble()));
    }
    return new BandSet(json.path("code").asString(), json.path("measure").asString(), bands);
  }
}

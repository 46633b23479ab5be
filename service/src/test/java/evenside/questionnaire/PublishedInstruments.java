package evenside.questionnaire;

import evenside.intake.CatalogueReader;
import evenside.intake.InstrumentReader;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.schemas.Contract;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** The published questionnaires, and each of their scores with its entry in the catalogue. */
final class PublishedInstruments {
  private static final Contract CONTRACT = Contract.published();
  private static final MeasureCatalogue CATALOGUE = new CatalogueReader(CONTRACT).measures();

  static final Instruments ALL = new InstrumentReader(CATALOGUE).instruments(CONTRACT);

  private PublishedInstruments() {}

  /** One score under one rule for missing items. */
  record Case(Instrument instrument, ScoreRule score, MissingRule rule, Measure measure) {
    int needed() {
      return rule.needed(score.measure());
    }

    /** The outcome of scored answers in the order of the score's items; null is missing. */
    Outcome outcome(List<Double> answers) {
      Map<String, Double> byItem = new LinkedHashMap<>();
      for (int i = 0; i < answers.size(); i++) {
        Double answer = answers.get(i);
        if (answer != null) {
          byItem.put(score.items().get(i).number(), answer);
        }
      }
      return new Sheet(instrument, rule, byItem, Map.of()).computed(score).orElseThrow();
    }

    double score(List<Double> answers) {
      return ((Outcome.Scored) outcome(answers)).score();
    }

    @Override
    public String toString() {
      return score.measure() + " by " + rule.code();
    }
  }

  static Stream<Case> cases() {
    return ALL.all().stream()
        .flatMap(
            instrument ->
                instrument.scores().stream()
                    .flatMap(
                        score ->
                            instrument.missingRules().stream()
                                .map(rule -> of(instrument, score, rule))));
  }

  static Case of(String measure, String rule) {
    Instrument instrument =
        ALL.all().stream().filter(one -> one.score(measure).isPresent()).findFirst().orElseThrow();
    return of(
        instrument,
        instrument.score(measure).orElseThrow(),
        instrument.missingRule(rule).orElseThrow());
  }

  private static Case of(Instrument instrument, ScoreRule score, MissingRule rule) {
    return new Case(instrument, score, rule, CATALOGUE.get(score.measure()));
  }
}

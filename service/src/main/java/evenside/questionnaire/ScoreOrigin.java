package evenside.questionnaire;

import java.util.List;

/**
 * Where a questionnaire's score comes from; it travels with the number.
 *
 * @param instrument code of the instrument
 * @param version of the form
 * @param missingRule code of the rule for missing items
 * @param outcome the score with what was answered
 * @param bands published bands it lies in, by code of the set
 */
public record ScoreOrigin(
    String instrument, String version, String missingRule, Outcome outcome, List<InBand> bands) {
  public ScoreOrigin {
    bands = List.copyOf(bands);
  }

  /**
   * A band with its set.
   *
   * @param bandSet code of the set
   * @param band name of the band
   */
  public record InBand(String bandSet, String band) {}

  /** The origin of one outcome of a sheet. */
  public static ScoreOrigin of(Sheet sheet, Outcome outcome) {
    Instrument instrument = sheet.instrument();
    return new ScoreOrigin(
        instrument.code(),
        instrument.version(),
        sheet.rule().code(),
        outcome,
        outcome instanceof Outcome.Scored scored ? bands(instrument, scored) : List.of());
  }

  private static List<InBand> bands(Instrument instrument, Outcome.Scored scored) {
    return instrument.bandSets().stream()
        .filter(set -> set.measure().equals(scored.measure()))
        .flatMap(
            set ->
                set.bandOf(scored.score()).stream()
                    .map(band -> new InBand(set.code(), band.name())))
        .toList();
  }

  /** How the number came about: {@code computed} from answers, or {@code reported-only}. */
  public String valueSource() {
    return outcome instanceof Outcome.Scored scored && scored.reportedOnly()
        ? "reported-only"
        : "computed";
  }
}

package evenside.questionnaire;

import java.util.List;
import java.util.Optional;

/**
 * Published names for parts of a scale. Sets disagree, so a band always goes with its set.
 *
 * @param code of the set
 * @param measure the score it is for
 * @param bands the highest first
 */
public record BandSet(String code, String measure, List<Band> bands) {

  /**
   * One part of the scale.
   *
   * @param name as published
   * @param from smallest score in it
   */
  public record Band(String name, double from) {}

  public BandSet {
    bands = List.copyOf(bands);
    for (int i = 1; i < bands.size(); i++) {
      if (bands.get(i).from() >= bands.get(i - 1).from()) {
        throw new IllegalArgumentException(code + ": the highest band must come first");
      }
    }
  }

  /** The band a score lies in, if any. */
  public Optional<Band> bandOf(double score) {
    return bands.stream().filter(band -> score >= band.from()).findFirst();
  }
}

package evenside.store.evidence;

import java.util.Optional;

/**
 * One thing that a battery is evidence for.
 *
 * @param measure code of the measure
 * @param aspect which number of the measure, or {@link #NOT_PERFORMED}
 * @param mode mode of a strength test
 * @param speed angular speed of an isokinetic test, deg/s
 * @param angle knee angle of an isometric test, deg
 * @param context situation of a pain rating
 * @param number the number, where there is one
 */
public record EvidenceRow(
    String measure,
    String aspect,
    Optional<String> mode,
    Optional<Double> speed,
    Optional<Double> angle,
    Optional<String> context,
    Optional<FiledNumber> number) {
  /**
   * The aspect of a measure that was planned and not done. Such a row answers every question about
   * its measure, so that "not done today" is not covered up by an older result.
   */
  public static final String NOT_PERFORMED = "not-performed";

  /**
   * What is filed where a test was planned and not done on one leg: it answers only for a number
   * that rests on that leg.
   *
   * @param aspect the number
   * @return the aspect of the row
   */
  public static String notPerformed(String aspect) {
    return NOT_PERFORMED + "-" + aspect;
  }

  /** Whether it says that something was planned and not done. */
  public boolean isNotPerformed() {
    return aspect.startsWith(NOT_PERFORMED);
  }

  /**
   * A row without a protocol and a number.
   *
   * @param measure code of the measure
   * @param aspect which number of the measure
   * @return the row
   */
  public static EvidenceRow of(String measure, String aspect) {
    return new EvidenceRow(
        measure,
        aspect,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}

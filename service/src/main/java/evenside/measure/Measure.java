package evenside.measure;

/**
 * An entry of the catalogue: how a number is to be read.
 *
 * @param code kebab-case, as on the wire
 * @param title in the trade's words
 * @param family member of a battery's results it belongs to, or {@code derived}
 * @param unit UCUM code
 * @param sided true if each leg is tested
 * @param better which direction is better
 * @param symmetry how the legs are compared
 * @param aggregation how trials become a score unless the record asks otherwise
 * @param least smallest plausible value
 * @param most largest plausible value
 */
public record Measure(
    String code,
    String title,
    String family,
    String unit,
    boolean sided,
    Better better,
    SymmetryRule symmetry,
    Aggregation aggregation,
    double least,
    double most) {

  /** Family of measures that are computed, never sent. */
  public static final String DERIVED = "derived";

  /** How the two legs of a measure are compared. */
  public enum SymmetryRule {
    RATIO,
    DIFFERENCE,
    NONE
  }
}

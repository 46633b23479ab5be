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
 * @param recordOnly true if it is kept and shown, and no criterion may use it
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
    double most,
    boolean recordOnly) {

  /** Family of measures that are computed, never sent. */
  public static final String DERIVED = "derived";

  /** True if a value per body mass makes sense. */
  public boolean perMass() {
    return sided && unit.equals("N.m");
  }

  /** True if a value per standing height makes sense. */
  public boolean perHeight() {
    return family.equals("hopDistance");
  }

  /** True if a value per limb length makes sense. */
  public boolean perLimbLength() {
    return perHeight() || family.equals("balanceReach");
  }

  /** How the two legs of a measure are compared. */
  public enum SymmetryRule {
    RATIO,
    DIFFERENCE,
    NONE
  }
}

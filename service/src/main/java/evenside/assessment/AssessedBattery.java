package evenside.assessment;

import evenside.battery.Battery;
import evenside.measure.Gap;
import evenside.measure.Measured;
import java.util.List;

/**
 * A battery with everything that was computed from it alone.
 *
 * @param battery the battery
 * @param comparisons both legs, test by test
 * @param measured every number, grade and fact it gives
 * @param gaps what it should have given and could not
 */
public record AssessedBattery(
    Battery battery, List<SideComparison> comparisons, List<Measured> measured, List<Gap> gaps) {
  public AssessedBattery {
    comparisons = List.copyOf(comparisons);
    measured = List.copyOf(measured);
    gaps = List.copyOf(gaps);
  }
}

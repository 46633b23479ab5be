package evenside.assessment;

import evenside.battery.Battery;
import evenside.measure.Gap;
import evenside.measure.Measured;
import evenside.questionnaire.ScoreOrigin;
import java.util.List;

/**
 * A battery with everything that was computed from it alone.
 *
 * @param battery the battery
 * @param comparisons both legs, test by test
 * @param scores every questionnaire score, or why there is none
 * @param measured every number, grade and fact it gives
 * @param gaps what it should have given and could not
 */
public record AssessedBattery(
    Battery battery,
    List<SideComparison> comparisons,
    List<ScoreOrigin> scores,
    List<Measured> measured,
    List<Gap> gaps) {
  public AssessedBattery {
    comparisons = List.copyOf(comparisons);
    scores = List.copyOf(scores);
    measured = List.copyOf(measured);
    gaps = List.copyOf(gaps);
  }
}

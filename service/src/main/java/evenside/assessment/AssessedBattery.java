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
 * @param workedOut those of the measured that nobody sent, such as values per body mass
 * @param gaps what it should have given and could not
 * @param repetitions how alike the repetitions of the strength tests are
 */
public record AssessedBattery(
    Battery battery,
    List<SideComparison> comparisons,
    List<ScoreOrigin> scores,
    List<Measured> measured,
    List<Measured> workedOut,
    List<Gap> gaps,
    List<Repetitions> repetitions) {
  public AssessedBattery {
    comparisons = List.copyOf(comparisons);
    scores = List.copyOf(scores);
    measured = List.copyOf(measured);
    workedOut = List.copyOf(workedOut);
    gaps = List.copyOf(gaps);
    repetitions = List.copyOf(repetitions);
  }
}

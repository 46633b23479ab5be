package evenside.questionnaire;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Worked cases: a published cut-off is the rounded form of an attainable score. */
class CutOffTest {
  @ParameterizedTest
  @CsvSource({
    "66, 87, 75.9", // International Knee Documentation Committee form, 75.862
    "78, 87, 89.7", // the same form, 89.655
    "460, 600, 76.7", // readiness, short form, 76.667
    "32, 36, 88.9" // pain scale of nine items, 88.889
  })
  void scoreAtItsRoundedCutOff_isAtIt(double sum, double most, double cutOff) {
    assertThat(CutOff.comparable(100 * sum / most, cutOff)).isEqualTo(cutOff);
    assertThat(CutOff.comparable(100 * (sum - 1) / most, cutOff)).isLessThan(cutOff);
  }

  /** Q30: half up, where half even would give 56.2. */
  @ParameterizedTest
  @CsvSource({"56.25, 90.0, 56.3", "56.35, 56, 56.4", "89.7, 90, 89.7", "63.3333, 76.75, 63.33"})
  void score_isRoundedHalfUpToTheDecimalsOfTheCutOff(double score, double cutOff, double rounded) {
    assertThat(CutOff.comparable(score, cutOff)).isEqualTo(rounded);
  }
}

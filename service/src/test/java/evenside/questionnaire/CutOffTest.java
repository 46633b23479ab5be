package evenside.questionnaire;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.criteria.Comparator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Scores at published cut-offs. Whether each is met follows by hand from the rule that a published
 * cut-off is itself a rounded attainable score.
 */
class CutOffTest {
  /** Cut-offs as each row says; the sums are the worked cases Q8 to Q19, arithmetic. */
  @ParameterizedTest
  @CsvSource({
    // sum, largest sum, comparator, cut-off, met
    "66, 87, >=, 75.9, true", // Q8, acceptable state of the IKDC form
    "65, 87, >=, 75.9, false",
    "78, 87, >=, 89.7, true", // IKDC, 15th percentile of young men (from memory)
    "77, 87, >=, 89.7, false",
    "32, 36, >=, 88.9, true", // KOOS pain, raw 4
    "31, 36, >=, 88.9, false",
    "460, 600, >=, 76.7, true", // ACL-RSI, short form
    "450, 600, >=, 76.7, false",
    "63, 70, >=, 90, true", // Q17
    "62, 70, >=, 90, false",
    "760, 1200, >, 56, true", // Q18
    "760, 1200, >=, 65, false",
    "680, 1200, >, 56, true", // Q19
    "56, 100, >, 56, false", // reported totals can sit at the bound itself
    "56, 100, >=, 56, true",
    "897, 1000, >=, 90, false" // a whole-number cut-off does not pull 89.7 up
  })
  void score_meets_the_cut_off(
      double sum, double largest, String comparator, double cutOff, boolean met) {
    double score = 100 * sum / largest;
    assertThat(Comparator.of(comparator).test(CutOff.comparable(score, cutOff), cutOff))
        .isEqualTo(met);
  }

  /** Arithmetic on attainable scores and the rounded cut-offs above. */
  @ParameterizedTest
  @CsvSource({"66, 87, 75.9", "78, 87, 89.7", "32, 36, 88.9", "460, 600, 76.7"})
  void unrounded_the_people_exactly_at_the_cut_off_would_fail(
      double sum, double largest, double cutOff) {
    assertThat(100 * sum / largest).isLessThan(cutOff);
  }

  /** Q30: halves go up; to the even neighbour it would be 56.2. */
  @Test
  void half_goes_up() {
    assertThat(Shown.oneDecimal(56.25)).hasToString("56.3");
    assertThat(CutOff.comparable(56.25, 56.3)).isEqualTo(56.3);
  }

  /** Q1's score as reported by senders that round, cut or do neither. */
  @ParameterizedTest
  @CsvSource({"83.9, true", "83.908, true", "83.86, true", "84.0, false", "83.8, false"})
  void reported_score_agrees_to_one_decimal(double reported, boolean agrees) {
    assertThat(Shown.agree(reported, 100 * 73.0 / 87)).isEqualTo(agrees);
  }
}

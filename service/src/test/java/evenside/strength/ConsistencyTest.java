package evenside.strength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ConsistencyTest {
  /** Classes of Mau-Moeller (2017), read in the abstract: below 10, 10 to 20, above 20 %. */
  @ParameterizedTest
  @CsvSource({
    "0, HIGH",
    "9.999999, HIGH",
    "10, MODERATE",
    "20, MODERATE",
    "20.000001, LOW",
    "55, LOW"
  })
  void grade_onAndBesideItsLimits(double variation, Consistency.Grade grade) {
    assertThat(Consistency.Grade.of(variation)).isEqualTo(grade);
  }

  /** 182 188 185 179 190: mean 184.8, sample SD 4.43846820, by numpy 1.24.2 (ddof 1). */
  @Test
  void variation_isSampleDeviationOverMean() {
    Consistency five = Consistency.of(List.of(182.0, 188.0, 185.0, 179.0, 190.0)).orElseThrow();
    assertThat(five.repetitions()).isEqualTo(5);
    assertThat(five.variation()).isCloseTo(100 * 4.43846820 / 184.8, within(1e-6));
    assertThat(five.grade()).isEqualTo(Consistency.Grade.HIGH);
  }

  /** By numpy 1.24.2 and by scipy 1.17.1: five repetitions, and the fewest there can be. */
  @Test
  void variation_isThatOfAnotherProgram() {
    assertThat(Consistency.of(List.of(196.0, 200.0, 198.0, 190.0, 194.0)).orElseThrow().variation())
        .isCloseTo(1.966808186265, within(1e-8));
    assertThat(Consistency.of(List.of(180.0, 200.0)).orElseThrow().variation())
        .isCloseTo(7.443229275648, within(1e-8));
  }

  @Test
  void repetitions_tooFewOrAllZero() {
    assertThat(Consistency.of(List.of(180.0))).isEmpty();
    assertThat(Consistency.of(List.of())).isEmpty();
    assertThat(Consistency.of(List.of(0.0, 0.0))).isEmpty();
  }
}

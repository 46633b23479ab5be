package evenside.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DecimalsTest {
  @Test
  void quotientOfDecimals_isTheDecimalOnPaper() {
    assertThat(Decimals.exact(100 * (161.1 / 179))).isEqualTo(90.0);
    assertThat(Decimals.exact(0.1 + 0.2)).isEqualTo(0.3);
    assertThat(Decimals.exact(89.956)).isEqualTo(89.956);
  }

  @Test
  void valueBesideABound_staysBesideIt() {
    assertThat(Decimals.exact(89.999_999_99)).isLessThan(90.0);
    assertThat(Decimals.exact(90.000_000_01)).isGreaterThan(90.0);
  }

  @Test
  void numberThatIsDividedAgain_keepsFifteenDigits() {
    assertThat(Decimals.intermediate(6.1 / 3)).isEqualTo(2.03333333333333);
    assertThat(Decimals.intermediate((4.9 + 5.1 + 5.0) / 3)).isEqualTo(5.0);
    assertThat(Decimals.intermediate(0)).isZero();
    assertThatIllegalArgumentException().isThrownBy(() -> Decimals.intermediate(Double.NaN));
  }

  @Test
  void zero_hasNoSign() {
    assertThat(1 / Decimals.exact(-0.0)).isPositive();
    assertThat(1 / Decimals.exact(-1e-12)).isPositive();
  }

  /** What IEEE 754 has beside the numbers. */
  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void numberThatIsNone_isRefused(double value) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Decimals.exact(value))
        .withMessageContaining(String.valueOf(value));
  }
}

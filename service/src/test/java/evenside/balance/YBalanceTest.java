package evenside.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Formula of Plisky (2006) as read in a public entry of rehabilitation measures. */
class YBalanceTest {
  @Test
  void composite_ofThreeReaches() {
    assertThat(YBalance.composite(62, 104, 98, 90)).isCloseTo(97.78, within(0.005));
  }

  @Test
  void composite_isTheMeanOfTheNormalisedReaches() {
    double mean =
        (YBalance.perLimbLength(61.5, 88)
                + YBalance.perLimbLength(97, 88)
                + YBalance.perLimbLength(91, 88))
            / 3;
    assertThat(YBalance.composite(61.5, 97, 91, 88)).isCloseTo(mean, within(1e-8));
  }

  @Test
  void limbLength_zero() {
    assertThatThrownBy(() -> YBalance.perLimbLength(60, 0)).hasMessageContaining("limb length");
  }
}

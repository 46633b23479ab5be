package evenside.hop;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rule of Gustavsson (2006), read second-hand: more than 25 % of the hops. */
class SideHopTest {
  @ParameterizedTest
  @CsvSource({"30, 10, false", "30, 11, true", "29, 10, true", "40, 0, false", "0, 1, true"})
  void secondAttempt_aboveAQuarter(double counted, double errors, boolean needed) {
    assertThat(SideHop.needsSecondAttempt(counted, errors)).isEqualTo(needed);
  }
}

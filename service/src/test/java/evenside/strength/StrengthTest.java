package evenside.strength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class StrengthTest {
  /** Printed ratios of a case report (PMC5638169), read; arithmetic only, see the file. */
  @ParameterizedTest
  @CsvFileSource(
      resources = "/published/ojsm-2017-hamstring-quadriceps.csv",
      useHeadersInDisplayName = true)
  void hamstringToQuadriceps_isThePublishedRatio(
      String id, double flexion, double extension, double ratio, double tolerance) {
    assertThat(Strength.hamstringToQuadriceps(flexion, extension).orElseThrow() / 100)
        .as(id)
        .isCloseTo(ratio, within(tolerance));
  }

  @Test
  void noExtensionTorque_givesNoRatio() {
    assertThat(Strength.hamstringToQuadriceps(90, 0)).isEmpty();
    assertThat(Strength.hamstringToQuadriceps(0, 150)).hasValue(0);
  }

  /** C11 of the published boundary cases: 240.0 N.m at 80.0 kg is not more than 3.0 N.m/kg. */
  @Test
  void torquePerBodyMass_isExactAtTheBound() {
    assertThat(Strength.perBodyMass(240.0, 80.0)).isEqualTo(3.0);
    assertThat(Strength.perBodyMass(219.6, 73.2)).isEqualTo(3.0);
  }

  /** Invented, to exercise the refusal. */
  @ParameterizedTest
  @ValueSource(doubles = {0, -80, Double.NaN})
  void bodyMassThatIsNone_isRefused(double mass) {
    assertThatIllegalArgumentException().isThrownBy(() -> Strength.perBodyMass(240, mass));
  }
}

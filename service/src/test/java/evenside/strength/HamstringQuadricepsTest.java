package evenside.strength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HamstringQuadricepsTest {
  /** Definitions of Kellis (2022), read: actions and speeds of flexion and extension. */
  @ParameterizedTest
  @CsvSource({
    "false, 60, 60, CONVENTIONAL",
    "false, 60, 180, ",
    "true, 60, 60, FUNCTIONAL",
    "true, 240, 240, FUNCTIONAL",
    "true, 30, 240, MIXED",
    "true, 30, 180, ",
    "true, 60, 240, "
  })
  void pair_ofActionsAndSpeeds(
      boolean eccentric, double flexion, double extension, HamstringQuadriceps expected) {
    List<HamstringQuadriceps> made =
        Arrays.stream(HamstringQuadriceps.values())
            .filter(ratio -> ratio.pairs(eccentric, flexion, extension))
            .toList();
    assertThat(made).isEqualTo(expected == null ? List.of() : List.of(expected));
  }

  /** Definition of torque: 412 N at 34 cm. */
  @Test
  void torque_fromForceAndLeverArm() {
    assertThat(Strength.torque(412, 34)).isEqualTo(140.08);
    assertThatThrownBy(() -> Strength.torque(412, 0)).hasMessageContaining("lever arm");
  }
}

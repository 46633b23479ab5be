package evenside.limb;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Invented spellings and numbers, to exercise the rules; no source. */
class SideTest {
  @ParameterizedTest
  @EnumSource(Side.class)
  void code_readsBackAsTheSameSide(Side side) {
    assertThat(Side.of(side.code())).isEqualTo(side);
    assertThat(side.opposite()).isNotEqualTo(side);
    assertThat(side.opposite().opposite()).isEqualTo(side);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "LEFT", "l", "operated", "affected"})
  void sideUnderAnotherName_isRefused(String code) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Side.of(code))
        .withMessageContaining(code);
  }

  @Test
  void pairWithoutANumber_isRefused() {
    assertThatIllegalArgumentException().isThrownBy(() -> new LimbPair(Double.NaN, 1));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new LimbPair(1, Double.POSITIVE_INFINITY));
  }
}

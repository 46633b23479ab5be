package evenside.hop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Arithmetic made outside this project: contact 0.21 s, flight 0.48 s, height 0.282528 m. */
class ReactiveStrengthTest {
  @Test
  void index_isHeightPerContact() {
    assertThat(ReactiveStrength.index(28.2528, 0.21)).isCloseTo(1.3453714286, within(1e-9));
  }

  @Test
  void ratio_isFlightPerContact() {
    assertThat(ReactiveStrength.ratio(0.48, 0.21)).isCloseTo(2.2857142857, within(1e-9));
  }

  @Test
  void contact_zero() {
    assertThatThrownBy(() -> ReactiveStrength.index(20, 0)).hasMessageContaining("contact time");
    assertThatThrownBy(() -> ReactiveStrength.ratio(0.4, 0)).hasMessageContaining("contact time");
  }
}

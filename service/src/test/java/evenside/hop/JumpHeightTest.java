package evenside.hop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class JumpHeightTest {
  /** Ballistic formula by hand; 0.5 s is the flight of a jump with a closed-form force. */
  @ParameterizedTest
  @CsvSource({"0.400, 19.62", "0.5, 30.65625", "0.48, 28.2528"})
  void height_isTheBallisticOne(double seconds, double centimetres) {
    assertThat(JumpHeight.fromFlightTime(seconds)).isCloseTo(centimetres, within(1e-9));
  }

  /** A property of the ballistic formula; Linthorne (2001), read in the abstract. */
  @ParameterizedTest
  @CsvSource({"0.2", "0.3", "0.61"})
  void height_growsWithTheSquareOfTheTime(double seconds) {
    assertThat(JumpHeight.fromFlightTime(2 * seconds))
        .isCloseTo(4 * JumpHeight.fromFlightTime(seconds), within(1e-6));
  }

  @Test
  void time_notAboveZero() {
    assertThatThrownBy(() -> JumpHeight.fromFlightTime(0)).hasMessageContaining("0.0 s");
  }
}

package evenside.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantityTest {
  /** Own way of writing numbers, halves up; no source. */
  @ParameterizedTest
  @CsvSource({
    "172.8, N.m, 172.8 N.m",
    "90, %, 90 %",
    "89.956, %, 89.96 %",
    "0.005, s, 0.01 s", // half up, as people round
    "56.25, {score}, 56.25",
    "1200, cm, 1200 cm",
    "-3, deg, -3 deg"
  })
  void text_isAsPeopleWriteIt(double value, String unit, String text) {
    assertThat(new Quantity(value, unit)).hasToString(text);
  }

  @Test
  void valueThatIsNoNumber_isRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Quantity(Double.NaN, "%"))
        .withMessageContaining("NaN");
  }
}

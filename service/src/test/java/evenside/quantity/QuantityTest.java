package evenside.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import java.util.stream.DoubleStream;
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

  /** The JDK's decimal arithmetic as the outside check, ties and their neighbours included. */
  @Test
  void text_isThatOfDecimalArithmetic() {
    RandomGenerator random = new SplittableRandom(5);
    for (int i = 0; i < 100_000; i++) {
      double decimal = random.nextInt(-2_000_000, 2_000_000) / 1000.0;
      check(decimal);
      check(Math.nextUp(decimal));
      check(Math.nextDown(decimal));
      check(random.nextDouble(-1e8, 1e8));
    }
    DoubleStream.of(0, -0.0, -0.004, 1e-9, 9_999_999.995, 12_345_678_901.235, 1e20, 1e300)
        .forEach(QuantityTest::check);
  }

  private static void check(double value) {
    String expected =
        BigDecimal.valueOf(value)
            .setScale(2, RoundingMode.HALF_UP)
            .stripTrailingZeros()
            .toPlainString();
    if (!Quantity.text(value).equals(expected)) {
      assertThat(Quantity.text(value)).as("%s", value).isEqualTo(expected);
    }
  }

  @Test
  void valueThatIsNoNumber_isRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Quantity(Double.NaN, "%"))
        .withMessageContaining("NaN");
  }
}

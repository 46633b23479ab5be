package evenside.signs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HeelHeightTest {
  /** Geometry by hand, two decimals. */
  @ParameterizedTest
  @CsvSource({
    "1, 48, 1.19",
    "2, 48, 2.39",
    "3, 48, 3.58",
    "5, 48, 5.98",
    "1, 42, 1.36",
    "1, 45, 1.27",
    "1, 50, 1.15",
    "-2, 48, -2.39"
  })
  void angle_byGeometry(double difference, double shank, double degrees) {
    assertThat(HeelHeight.extensionLoss(difference, shank).getAsDouble())
        .isCloseTo(degrees, within(0.005));
  }

  @Test
  void difference_asLongAsTheShank() {
    assertThat(HeelHeight.extensionLoss(40, 40)).isEmpty();
  }
}

package evenside.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.measure.Aspect;
import evenside.measure.MeasurementError;
import evenside.quantity.Quantity;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OneSidedConfidenceTest {
  /**
   * The symmetry that must be seen before the true one is at least 90 % with 95 % one-sided
   * confidence: 90 + 1.645 × SEM, by hand, for the errors of Reid (2007).
   */
  @ParameterizedTest
  @CsvSource({"3.49, 95.74", "5.59, 99.20", "4.32, 97.11", "5.28, 98.69", "3.04, 95.00"})
  void bound_isClearOfErrorAt(double sem, double seen) {
    MeasurementError error =
        new MeasurementError(
            "m",
            Aspect.SYMMETRY,
            "%",
            sem,
            false,
            1.645,
            null,
            null,
            null,
            "people",
            "source",
            true);
    ErrorBand band = ErrorBand.of(error, new Quantity(90.91, "%"), Comparator.AT_LEAST, 90);
    assertThat(band.clearAt()).isCloseTo(seen, within(0.0051));
  }
}

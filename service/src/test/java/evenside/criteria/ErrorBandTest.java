package evenside.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.example.Clinic;
import evenside.intake.CatalogueReader;
import evenside.measure.Aggregation;
import evenside.measure.Aspect;
import evenside.measure.MeasureCatalogue;
import evenside.measure.MeasurementError;
import evenside.measure.Protocol;
import evenside.quantity.Quantity;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ErrorBandTest {
  private static final MeasureCatalogue CATALOGUE = new CatalogueReader(Clinic.CONTRACT).measures();

  /**
   * C42: the symmetry needed for 95 % one-sided confidence of at least 90, 90 + 1.645 × SEM, with
   * the catalogue's SEM (Reid 2007; normal error model).
   */
  @ParameterizedTest
  @CsvSource({
    "single-hop-distance, 95.74",
    "timed-6m-hop, 99.20",
    "triple-hop-distance, 97.11",
    "crossover-hop-distance, 98.69"
  })
  void symmetryClearOfTheBound_isThePublishedOne(String measure, double clear) {
    MeasurementError error = withZ(symmetryError(measure), 1.645);
    ErrorBand band = ErrorBand.of(error, new Quantity(92, "%"), Comparator.AT_LEAST, 90);
    assertThat(band.clearAt()).isCloseTo(clear, within(0.005));
  }

  /** C41: observed 90.909 lies 0.26 SEM above 90, which the normal model calls a chance of 0.60. */
  @Test
  void symmetryJustAboveTheBound_liesWithinTheError() {
    MeasurementError error = symmetryError("single-hop-distance");
    double seen = 100 * 150 / 165.0;
    ErrorBand band = ErrorBand.of(error, new Quantity(seen, "%"), Comparator.AT_LEAST, 90);
    assertThat((seen - 90) / band.sem()).isCloseTo(0.2605, within(5e-5));
    assertThat(band.boundWithin()).isTrue();
    assertThat(band.low()).isCloseTo(seen - 1.96 * 3.49, within(1e-9));
    assertThat(band.high()).isCloseTo(seen + 1.96 * 3.49, within(1e-9));
  }

  /** A property of the band, z × SEM either side; the catalogue’s errors, no source of its own. */
  @ParameterizedTest
  @CsvSource({
    "single-hop-distance, symmetry, '>=', 90, %",
    "single-hop-distance, operated, '>=', 150, cm",
    "timed-6m-hop, operated, '<=', 2, s",
    "landing-error-score, value, '<', 5, {errors}",
    "knee-extension-peak-torque, operated-per-mass, '>', 3, N.m/kg",
    "knee-extension-peak-torque, operated, '>=', 150, N.m"
  })
  void readingAtTheClearEdge_hasTheBoundAtTheEdgeOfItsOwnBand(
      String measure, String aspect, String symbol, double bound, String unit) {
    MeasurementError error =
        CATALOGUE
            .errorOf(measure, Aspect.of(aspect), concentric60(), Aggregation.BEST)
            .orElseThrow();
    Comparator comparator = Comparator.of(symbol);
    double clear =
        ErrorBand.of(error, new Quantity(bound * 0.8, unit), comparator, bound).clearAt();
    double beyond = comparator.upward() ? clear * 1.0001 : clear * 0.9999;
    double before = comparator.upward() ? clear * 0.9999 : clear * 1.0001;
    assertThat(covers(error, beyond, comparator, bound)).as("beyond %s", clear).isFalse();
    assertThat(covers(error, before, comparator, bound)).as("before %s", clear).isTrue();
  }

  private static boolean covers(
      MeasurementError error, double value, Comparator comparator, double bound) {
    return ErrorBand.of(error, new Quantity(value, "x"), comparator, bound).boundWithin();
  }

  private static Protocol concentric60() {
    return new Protocol(Map.of(Protocol.MODE, "isokinetic-concentric", Protocol.SPEED, 60.0));
  }

  private static MeasurementError symmetryError(String measure) {
    return CATALOGUE
        .errorOf(measure, Aspect.SYMMETRY, Protocol.NONE, Aggregation.MEAN)
        .orElseThrow();
  }

  private static MeasurementError withZ(MeasurementError e, double z) {
    return new MeasurementError(
        e.measure(),
        e.aspect(),
        e.unit(),
        e.sem(),
        e.relative(),
        z,
        e.mode(),
        e.speed(),
        e.aggregation(),
        e.population(),
        e.source(),
        e.verified());
  }
}

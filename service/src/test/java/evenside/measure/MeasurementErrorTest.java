package evenside.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.example.Clinic;
import evenside.intake.CatalogueReader;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import tools.jackson.databind.JsonNode;

class MeasurementErrorTest {
  private static final MeasureCatalogue CATALOGUE = new CatalogueReader(Clinic.CONTRACT).measures();

  /** Smallest detectable change = z × √2 × SEM; where the pairs come from stands in the file. */
  @ParameterizedTest
  @CsvFileSource(resources = "/published/hop-errors.csv", useHeadersInDisplayName = true)
  void catalogueError_isAndGivesThePublishedPair(
      String id,
      String measure,
      String aspect,
      double sem,
      double z,
      double change,
      double tolerance) {
    MeasurementError error =
        CATALOGUE
            .errorOf(measure, Aspect.of(aspect), Protocol.NONE, Aggregation.MEAN)
            .orElseThrow();
    assertThat(error.sem()).as(id).isEqualTo(sem);
    assertThat(z * Math.sqrt(2) * error.sem()).as(id).isCloseTo(change, within(tolerance));
    JsonNode entry = entry(measure, aspect);
    assertThat(entry.path("mdc").path("value").asDouble()).isCloseTo(change, within(tolerance));
    assertThat(entry.path("mdc").path("z").asDouble()).isEqualTo(z);
  }

  @Test
  void errorOfOneWayOfTesting_isNotUsedForAnother() {
    Protocol slow = concentric(60.0);
    Protocol fast = concentric(300.0);
    assertThat(torqueError(slow)).isPresent();
    assertThat(torqueError(fast)).isEmpty();
    assertThat(torqueError(Protocol.NONE)).isEmpty();
  }

  @Test
  void relativeError_growsWithTheValue() {
    MeasurementError error = torqueError(concentric(60.0)).orElseThrow();
    assertThat(error.relative()).isTrue();
    assertThat(error.semAt(200)).isCloseTo(13.86, within(1e-9));
    assertThat(error.halfWidth(100)).isCloseTo(1.96 * 6.93, within(1e-9));
  }

  private static Optional<MeasurementError> torqueError(Protocol protocol) {
    return CATALOGUE.errorOf(
        "knee-extension-peak-torque", Aspect.OPERATED, protocol, Aggregation.BEST);
  }

  private static Protocol concentric(double speed) {
    return new Protocol(Map.of(Protocol.MODE, "isokinetic-concentric", Protocol.SPEED, speed));
  }

  private static JsonNode entry(String measure, String aspect) {
    return Clinic.CONTRACT
        .catalogue("measurement-errors")
        .path("errors")
        .valueStream()
        .filter(one -> one.path("measure").asString().equals(measure))
        .filter(one -> one.path("aspect").asString().equals(aspect))
        .findFirst()
        .orElseThrow();
  }
}

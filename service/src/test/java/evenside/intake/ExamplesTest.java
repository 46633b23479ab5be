package evenside.intake;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** The published examples, as the service takes them and not only their schemas. */
class ExamplesTest {
  private static final String EXPECTED = ".expected.json";

  static Stream<Path> valid() {
    return files("valid");
  }

  static Stream<Path> invalid() {
    return files("invalid");
  }

  @ParameterizedTest
  @MethodSource("valid")
  void validExample_isAcceptedByTheService(Path file) {
    assertThat(Papers.check(kind(file), read(file)).faults()).isEmpty();
  }

  /**
   * What the schema finds is found, and no rule adds a fault that follows from one named already.
   */
  @ParameterizedTest
  @MethodSource("invalid")
  void invalidExample_hasExactlyItsFaults(Path file) {
    JsonNode expected =
        read(file.resolveSibling(file.getFileName().toString().replace(".json", EXPECTED)));
    List<String> wanted =
        expected
            .valueStream()
            .map(f -> f.path("pointer").asString() + " " + f.path("code").asString())
            .toList();
    List<String> found = Papers.brief(Papers.check(kind(file), read(file)).faults());
    assertThat(found).isEqualTo(wanted);
  }

  @Test
  void thereAreExamplesOfEveryKindOfOutput() {
    assertThat(valid().map(ExamplesTest::kind))
        .contains("decision", "assessment", "case-record", "battery-record", "check-report");
  }

  /** Every published set binds: it is accepted the way a clinic's own set would be. */
  @ParameterizedTest
  @MethodSource("publishedSets")
  void publishedSet_isAccepted(JsonNode set) {
    assertThat(Papers.check("criteria-set", set).faults()).isEmpty();
  }

  static List<JsonNode> publishedSets() {
    return Contract.published().criteriaSets();
  }

  private static Stream<Path> files(String verdict) {
    try {
      Path folder = Path.of(ExamplesTest.class.getResource("/examples/" + verdict).toURI());
      return Files.walk(folder)
          .filter(file -> file.toString().endsWith(".json"))
          .filter(file -> !file.toString().endsWith(EXPECTED))
          .sorted();
    } catch (IOException | URISyntaxException unreadable) {
      throw new IllegalStateException(unreadable);
    }
  }

  private static String kind(Path file) {
    return file.getParent().getFileName().toString();
  }

  private static JsonNode read(Path file) {
    try {
      return StrictJson.read(Files.readAllBytes(file), StrictJson.Limits.OWN);
    } catch (IOException unreadable) {
      throw new IllegalStateException(unreadable);
    }
  }

  @Test
  void clockOfTheTests_isAfterEveryExample() {
    assertThat(Clinic.NOW).isAfter("2026-10-01T00:00:00Z");
  }
}

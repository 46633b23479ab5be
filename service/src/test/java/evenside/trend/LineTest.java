package evenside.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.Stream;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

class LineTest {
  private static final JsonNode GOLDEN = Golden.read("student_t_and_regression");

  /** NIST Statistical Reference Datasets, linear regression, Norris: certified values. */
  @Test
  void norris_givesTheCertifiedValues() {
    Line line = Line.through(Golden.readings(GOLDEN.path("norris")));
    JsonNode certified = GOLDEN.path("norris").path("certified");

    assertClose(line.intercept(), certified.path("intercept"));
    assertClose(line.interceptError(), certified.path("se_intercept"));
    assertClose(line.slope(), certified.path("slope"));
    assertClose(line.slopeError(), certified.path("se_slope"));
    assertClose(line.residual(), certified.path("residual_sd"));
    assertClose(line.explained(), certified.path("r_squared"));
  }

  private static void assertClose(double value, JsonNode expected) {
    assertThat(value).isCloseTo(expected.asDouble(), Percentage.withPercentage(1e-8));
  }

  /**
   * Quantiles by mpmath 1.2.1 at 40 digits; intervals by scipy 1.10.1, those on R's data "cars"
   * (confidence) also printed in public R teaching texts.
   */
  @ParameterizedTest
  @MethodSource("quantiles")
  void quantileOfT_isThatOfAnotherProgram(int degreesOfFreedom, double p, double expected) {
    assertThat(Line.t(2 * p - 1, degreesOfFreedom))
        .isCloseTo(expected, Percentage.withPercentage(1e-6));
  }

  static Stream<Arguments> quantiles() {
    JsonNode levels = GOLDEN.path("t_quantiles").path("p");
    return GOLDEN
        .path("t_quantiles")
        .path("rows")
        .valueStream()
        .flatMap(
            row ->
                java.util.stream.IntStream.range(0, levels.size())
                    .mapToObj(
                        i ->
                            Arguments.of(
                                row.path("df").asInt(),
                                levels.path(i).asDouble(),
                                row.path("q").path(i).asDouble())));
  }

  /** Intervals by scipy 1.10.1, as said above. */
  @ParameterizedTest
  @MethodSource("intervals")
  void interval_isThatOfAnotherProgram(String set, double level, JsonNode row) {
    Line line = Line.through(Golden.readings(GOLDEN.path(set)));
    double at = row.path("x0").asDouble();

    assertThat(line.at(at)).isCloseTo(row.path("fit").asDouble(), within(1e-8));
    assertSame(line.confidence(at, level), row.path("ci"));
    assertSame(line.prediction(at, level), row.path("pi"));
  }

  private static void assertSame(Interval interval, JsonNode expected) {
    assertThat(interval.low()).isCloseTo(expected.path(0).asDouble(), within(1e-6));
    assertThat(interval.high()).isCloseTo(expected.path(1).asDouble(), within(1e-6));
  }

  static Stream<Arguments> intervals() {
    return Stream.of("norris", "cars", "recovery_line")
        .flatMap(
            set ->
                Stream.of("prediction", "prediction_80")
                    .map(name -> GOLDEN.path(set).path(name))
                    .flatMap(
                        part ->
                            part.path("rows")
                                .valueStream()
                                .map(
                                    row -> Arguments.of(set, part.path("level").asDouble(), row))));
  }

  @Test
  void intervals_wereAllRead() {
    assertThat(intervals()).hasSize(11);
    assertThat(quantiles()).hasSize(165);
  }

  /** Three readings leave one degree of freedom; scipy 1.17.1, linregress and t.ppf. */
  @Test
  void threeReadings_haveTheWideIntervalsOfOneDegreeOfFreedom() {
    Line line = Line.through(List.of(new Reading(0, 80), new Reading(4, 86), new Reading(8, 93)));
    assertThat(line.slope()).isCloseTo(1.625, within(1e-12));
    assertThat(line.residual()).isCloseTo(0.408248290464, within(1e-9));
    assertThat(line.slope(0.95).low()).isCloseTo(0.708008659399, within(1e-7));
    assertThat(line.slope(0.95).high()).isCloseTo(2.541991340601, within(1e-7));
    assertThat(line.prediction(8, 0.95).low()).isCloseTo(85.809714396779, within(1e-7));
    assertThat(line.prediction(8, 0.95).high()).isCloseTo(99.856952269888, within(1e-7));
  }

  @Test
  void fewerThanThreeReadings_areRefused() {
    List<Reading> two = List.of(new Reading(4, 80), new Reading(8, 86));
    assertThatThrownBy(() -> Line.through(two))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("got 2");
  }

  @Test
  void readingsOfOneDay_areRefused() {
    Reading reading = new Reading(4, 80);
    assertThat(Line.fits(List.of(reading, reading, reading))).isFalse();
  }

  @Test
  void levelRow_hasALevelLine() {
    Line line = Line.through(List.of(new Reading(1, 80), new Reading(2, 80), new Reading(3, 80)));
    assertThat(line.slope()).isZero();
    assertThat(line.explained()).isEqualTo(1);
  }
}

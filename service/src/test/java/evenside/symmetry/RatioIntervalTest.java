package evenside.symmetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import evenside.symmetry.RatioInterval.Estimate;
import java.io.InputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class RatioIntervalTest {
  private static final double Z = 1.96;

  /** A property of any interval around a ratio; the numbers are invented. */
  @ParameterizedTest
  @EnumSource
  void everyMethod_holdsTheRatioAndGrowsWithTheError(RatioInterval method) {
    double width = 0;
    for (double error = 0; error <= 20; error += 2) {
      Interval.Bounded now =
          bounded(method.around(new Estimate(150, error), new Estimate(165, error), 0, Z));
      assertThat(now.low()).isLessThanOrEqualTo(150 / 165.0 + 1e-12);
      assertThat(now.high()).isGreaterThanOrEqualTo(150 / 165.0 - 1e-12);
      assertThat(now.high() - now.low()).isGreaterThanOrEqualTo(width);
      width = now.high() - now.low();
    }
  }

  /**
   * Worked by hand: 150 and 165 cm with SEM 4.61 cm each (Ross 2002, end of the printed range);
   * then with errors that go together; then 90 and 100 N.m at 5 % each. The last column is half of
   * the last digit given.
   */
  @ParameterizedTest
  @CsvSource({
    "DELTA, 150, 165, 4.61, 4.61, 0, 83.51, 98.31, 0.005",
    "FIELLER, 150, 165, 4.61, 4.61, 0, 83.77, 98.60, 0.005",
    "LOG_DELTA, 150, 165, 4.61, 4.61, 0.5, 85.8, 96.3, 0.05",
    "LOG_DELTA, 90, 100, 4.5, 5, 0, 78, 103, 0.5"
  })
  void publishedError_aroundARatio(
      RatioInterval method,
      double operated,
      double other,
      double operatedError,
      double otherError,
      double rho,
      double low,
      double high,
      double half) {
    Estimate top = new Estimate(operated, operatedError);
    Interval.Bounded interval =
        bounded(method.around(top, new Estimate(other, otherError), rho, Z));
    assertThat(100 * interval.low()).isCloseTo(low, within(half));
    assertThat(100 * interval.high()).isCloseTo(high, within(half));
  }

  /** At hop precision the three differ by less than 0.4 of a point. */
  @Test
  void hop_methodsAgree() {
    Estimate operated = new Estimate(150, 4.61);
    Estimate other = new Estimate(165, 4.61);
    Interval.Bounded delta = bounded(RatioInterval.DELTA.around(operated, other, 0, Z));
    for (RatioInterval method : RatioInterval.values()) {
      Interval.Bounded one = bounded(method.around(operated, other, 0, Z));
      assertThat(one.low()).isCloseTo(delta.low(), within(0.004));
      assertThat(one.high()).isCloseTo(delta.high(), within(0.004));
    }
  }

  /** I = U = 20, variances 100 and 121: by hand A = −64.8, so no limits exist. */
  @Test
  void fieller_denominatorNotToldFromZero() {
    Interval interval =
        RatioInterval.FIELLER.around(new Estimate(20, 10), new Estimate(20, 11), 0, Z);
    assertThat(interval).isInstanceOf(Interval.Unbounded.class);
  }

  /**
   * Every case of the golden file: intervals made by numpy, Fieller's cross-checked there by root
   * finding.
   */
  @Test
  void everyMethod_asByAnotherProgram() {
    JsonNode cases = golden().path("cases");
    for (JsonNode one : cases) {
      Sample operated = Sample.of(one.path("numerator"));
      Sample other = Sample.of(one.path("denominator"));
      boolean paired = one.path("design").asString().equals("paired");
      boolean pooled = one.path("design").asString().contains("pooled");
      double variance = (operated.squares + other.squares) / (operated.count + other.count - 2);
      Estimate top = operated.estimate(pooled ? variance : operated.variance());
      Estimate bottom = other.estimate(pooled ? variance : other.variance());
      double rho = paired ? correlation(one) : 0;
      String name = one.path("name").asString();
      double t = one.path("t").asDouble();
      agrees(name, RatioInterval.FIELLER.around(top, bottom, rho, t), one.path("fieller"));
      if (one.path("ratio_of_means").asDouble() > 0) {
        pair(name, RatioInterval.DELTA.around(top, bottom, rho, t), one.path("delta"));
        pair(name, RatioInterval.LOG_DELTA.around(top, bottom, rho, t), one.path("log_ratio"));
      }
    }
    assertThat(cases.size()).isEqualTo(8);
  }

  @Test
  void estimate_withANegativeError() {
    assertThatThrownBy(() -> new Estimate(1, -0.1)).hasMessageContaining("-0.1");
  }

  private static void agrees(String name, Interval found, JsonNode expected) {
    switch (expected.path("kind").asString()) {
      case "bounded" -> {
        assertThat(bounded(found).low())
            .as(name)
            .isCloseTo(expected.path("lower").asDouble(), within(1e-9));
        assertThat(bounded(found).high())
            .as(name)
            .isCloseTo(expected.path("upper").asDouble(), within(1e-9));
      }
      case "exclusive" ->
          assertThat(found).as(name).isEqualTo(new Interval.Unbounded(Interval.Kind.OUTSIDE));
      default ->
          assertThat(found).as(name).isEqualTo(new Interval.Unbounded(Interval.Kind.EVERYTHING));
    }
  }

  private static void pair(String name, Interval found, JsonNode expected) {
    if (expected.size() == 2) {
      assertThat(bounded(found).low())
          .as(name)
          .isCloseTo(expected.path(0).asDouble(), within(1e-6));
      assertThat(bounded(found).high())
          .as(name)
          .isCloseTo(expected.path(1).asDouble(), within(1e-6));
    }
  }

  private static Interval.Bounded bounded(Interval interval) {
    return (Interval.Bounded) interval;
  }

  private static double correlation(JsonNode one) {
    Sample a = Sample.of(one.path("numerator"));
    Sample b = Sample.of(one.path("denominator"));
    double products = 0;
    for (int i = 0; i < one.path("numerator").size(); i++) {
      products +=
          (one.path("numerator").path(i).asDouble() - a.mean)
              * (one.path("denominator").path(i).asDouble() - b.mean);
    }
    return products / Math.sqrt(a.squares * b.squares);
  }

  private static JsonNode golden() {
    InputStream file = RatioIntervalTest.class.getResourceAsStream("/golden/ratio-intervals.json");
    return JsonMapper.shared().readTree(file);
  }

  /** Mean and spread of one list of numbers. */
  private record Sample(int count, double mean, double squares) {
    static Sample of(JsonNode numbers) {
      double mean = numbers.valueStream().mapToDouble(JsonNode::asDouble).average().orElseThrow();
      double squares =
          numbers.valueStream().mapToDouble(x -> Math.pow(x.asDouble() - mean, 2)).sum();
      return new Sample(numbers.size(), mean, squares);
    }

    double variance() {
      return squares / (count - 1);
    }

    Estimate estimate(double variance) {
      return new Estimate(mean, Math.sqrt(variance / count));
    }
  }
}

package evenside.symmetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.battery.Trial;
import evenside.battery.Trials;
import evenside.criteria.Comparator;
import evenside.limb.LimbPair;
import evenside.measure.Aggregation;
import evenside.measure.Better;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LimbSymmetryTest {
  private static final int[] BOUNDS = {70, 80, 85, 90, 95, 100};

  /** Printed and worked pairs; sources and marks stand on top of the file. */
  @ParameterizedTest
  @CsvFileSource(resources = "/published/limb-symmetry.csv", useHeadersInDisplayName = true)
  void index_isThePublishedOne(
      String id, Better better, double operated, double other, double index, double tolerance) {
    assertThat(index(operated, other, better)).as(id).isCloseTo(index, within(tolerance));
  }

  /** The footnote's weaker ÷ stronger would give 96.2 % here. */
  @Test
  void strongerOperatedLeg_isAboveHundredAndNotTurnedRound() {
    assertThat(index(250.7, 241.1, Better.HIGHER)).isGreaterThan(100);
    assertThat(index(1.8, 2.0, Better.LOWER)).isGreaterThan(100);
    assertThat(index(300, 100, Better.HIGHER)).isEqualTo(300.0);
  }

  /** A quotient without a divisor, and for times both above zero; own rule from the definition. */
  @ParameterizedTest
  @CsvSource({"150, 0, HIGHER", "0, 2.0, LOWER", "2.0, 0, LOWER", "0, 0, HIGHER", "0, 0, LOWER"})
  void nothingToDivideBy_givesNoIndex(double operated, double other, Better better) {
    assertThat(LimbSymmetry.index(new LimbPair(operated, other), better)).isEmpty();
  }

  @Test
  void operatedLegThatDidNothing_isZeroPercent() {
    assertThat(index(0, 150, Better.HIGHER)).isZero();
  }

  @Test
  void negativeValue_givesNoIndex() {
    assertThat(LimbSymmetry.index(new LimbPair(-3, 140), Better.HIGHER)).isEmpty();
    assertThat(LimbSymmetry.index(new LimbPair(140, -3), Better.HIGHER)).isEmpty();
  }

  /**
   * The double that is compared falls on the same side of every bound as the fraction on paper, by
   * the platform’s decimal arithmetic; random numbers, the seeds arbitrary.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 20161, 90090})
  void indexOfDecimals_comparesAsRationalArithmeticDoes(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < 20_000; i++) {
      BigDecimal other = decimal(random, 1 + random.nextInt(500), random.nextInt(5));
      int bound = BOUNDS[random.nextInt(BOUNDS.length)];
      BigDecimal operated = nearBound(random, other, bound, random.nextInt(5));
      assertCompared(operated, other, bound, Better.HIGHER);
      assertCompared(other, operated, bound, Better.LOWER);
    }
  }

  /** The same where each score is the mean of up to five trials with at most two decimals. */
  @ParameterizedTest
  @ValueSource(longs = {4, 5, 6, 97})
  void indexOfMeans_comparesAsRationalArithmeticDoes(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < 20_000; i++) {
      int whole = random.nextBoolean() ? 3 : 200;
      List<BigDecimal> other = trials(random, whole);
      int bound = BOUNDS[random.nextInt(BOUNDS.length)];
      List<BigDecimal> operated =
          other.stream().map(trial -> nearBound(random, trial, bound, 4)).toList();
      BigDecimal sumOperated = sum(operated);
      BigDecimal sumOther = sum(other);
      int expected =
          sumOperated
              .multiply(BigDecimal.valueOf(100))
              .compareTo(sumOther.multiply(BigDecimal.valueOf(bound)));
      double index = index(mean(operated), mean(other), Better.HIGHER);
      assertThat(Double.compare(index, bound))
          .as("%s against %s at %d", operated, other, bound)
          .isEqualTo(expected);
    }
  }

  /**
   * Means of three times: 6.10 / 3 s operated, 5.49 / 3 s other. On paper that is 90 exactly, which
   * does not pass "more than 90".
   */
  @Test
  void meansOfTimesAtExactlyNinety_areNinety() {
    double operated = mean(decimals("2.03", "2.03", "2.04"));
    double other = mean(decimals("1.83", "1.82", "1.84"));
    assertThat(index(operated, other, Better.LOWER)).isEqualTo(90.0);
  }

  /** C06: 93.8 % by the best and 89.1 % by the mean; the trials are ours, the pair is reported. */
  @Test
  void bestAndMeanOfTheSameTrials_giveDifferentSymmetry() {
    List<Trial> operated = trials(150, 128, 131);
    List<Trial> other = trials(160, 150, 149);
    double best = index(best(operated), best(other), Better.HIGHER);
    double mean =
        index(
            Trials.score(operated, Aggregation.MEAN, Better.HIGHER),
            Trials.score(other, Aggregation.MEAN, Better.HIGHER),
            Better.HIGHER);
    assertThat(best).isCloseTo(93.8, within(0.05));
    assertThat(mean).isCloseTo(89.1, within(0.05));
  }

  /** The definition solved for the operated leg, by hand to four decimals. */
  @ParameterizedTest
  @CsvSource({"HIGHER, 192, 90, 172.8", "LOWER, 2.0, 90, 2.2222", "LOWER, 2.0, 100, 2.0"})
  void boundTurnedBackIntoTheTestsUnit_isWhatTheOperatedLegNeeds(
      Better better, double other, double bound, double needed) {
    double operated = LimbSymmetry.rescale(other, better, "x").operatedAt(bound);
    assertThat(operated).isCloseTo(needed, within(5e-5));
    assertThat(index(operated, other, better)).isEqualTo(bound);
  }

  private static void assertCompared(
      BigDecimal operated, BigDecimal other, int bound, Better better) {
    double index = index(operated.doubleValue(), other.doubleValue(), better);
    BigDecimal above = better == Better.HIGHER ? operated : other;
    BigDecimal below = better == Better.HIGHER ? other : operated;
    int expected =
        above
            .multiply(BigDecimal.valueOf(100))
            .compareTo(below.multiply(BigDecimal.valueOf(bound)));
    for (Comparator comparator : Comparator.values()) {
      assertThat(comparator.test(index, bound))
          .as("%s / %s %s %d", above, below, comparator.symbol(), bound)
          .isEqualTo(comparator.test(expected, 0));
    }
  }

  /** At the bound, one unit of the last place beside it, or anywhere. */
  private static BigDecimal nearBound(Random random, BigDecimal other, int bound, int places) {
    BigDecimal at =
        other
            .multiply(BigDecimal.valueOf(bound))
            .movePointLeft(2)
            .setScale(places, RoundingMode.HALF_EVEN);
    return switch (random.nextInt(4)) {
      case 0 -> at.add(BigDecimal.ONE.movePointLeft(places));
      case 1 -> at.subtract(BigDecimal.ONE.movePointLeft(places)).max(BigDecimal.ONE);
      case 2 -> decimal(random, 1 + random.nextInt(500), places);
      default -> at.signum() > 0 ? at : BigDecimal.ONE;
    };
  }

  private static BigDecimal decimal(Random random, int whole, int places) {
    return BigDecimal.valueOf(whole)
        .add(BigDecimal.valueOf(random.nextInt(10_000), 4))
        .setScale(places, RoundingMode.HALF_EVEN);
  }

  private static List<BigDecimal> trials(Random random, int whole) {
    return IntStream.range(0, 1 + random.nextInt(5))
        .mapToObj(i -> decimal(random, 1 + random.nextInt(whole), 2))
        .toList();
  }

  private static List<Trial> trials(double... values) {
    return java.util.stream.DoubleStream.of(values)
        .mapToObj(value -> new Trial(value, null))
        .toList();
  }

  private static List<BigDecimal> decimals(String... values) {
    return List.of(values).stream().map(BigDecimal::new).toList();
  }

  private static BigDecimal sum(List<BigDecimal> values) {
    return values.stream().reduce(BigDecimal.ZERO, BigDecimal::add);
  }

  private static double mean(List<BigDecimal> values) {
    List<Trial> trials = values.stream().map(v -> new Trial(v.doubleValue(), null)).toList();
    return Trials.score(trials, Aggregation.MEAN, Better.HIGHER);
  }

  private static double best(List<Trial> trials) {
    return Trials.score(trials, Aggregation.BEST, Better.HIGHER);
  }

  private static double index(double operated, double other, Better better) {
    return LimbSymmetry.index(new LimbPair(operated, other), better).orElseThrow();
  }
}

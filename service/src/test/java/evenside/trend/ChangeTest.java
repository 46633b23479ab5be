package evenside.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.measure.Aspect;
import evenside.measure.MeasurementError;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChangeTest {
  private static MeasurementError error(double sem, boolean relative, double z) {
    return new MeasurementError(
        "m", Aspect.SYMMETRY, "%", sem, relative, z, null, null, null, "people", "source", true);
  }

  /**
   * Smallest detectable changes as printed. Reid (2007), Phys Ther 87:337–349 (z 1.64; 3.49, 4.32
   * and 5.28 from memory); Logerstedt (2010) guideline table (0.17 s, z 1.96).
   */
  @ParameterizedTest
  @CsvSource({
    "3.49, 1.64, 8.09, 0.005",
    "5.59, 1.64, 12.96, 0.005",
    "4.32, 1.64, 10.02, 0.005",
    "5.28, 1.64, 12.25, 0.005",
    "3.04, 1.64, 7.05, 0.005",
    "0.06, 1.96, 0.17, 0.005",
    "3.49, 1.96, 9.67, 0.005"
  })
  void smallestChange_isAsPrinted(double sem, double z, double printed, double tolerance) {
    Change change = Change.between(80, 90, error(sem, false, z));
    assertThat(change.smallest()).isCloseTo(printed, within(tolerance));
  }

  /** Reid (2007): group means gained 5.1 and 6.4 points in six weeks; a person's error is more. */
  @Test
  void publishedMeanGain_isWithinTheErrorOfOnePerson() {
    assertThat(Change.between(82.6, 87.7, error(4.32, false, 1.64)).reliable()).isFalse();
    assertThat(Change.between(83.2, 89.6, error(5.59, false, 1.64)).reliable()).isFalse();
  }

  @Test
  void change_atItsSmallest_isNotReliableYet() {
    MeasurementError error = error(1, false, 2);
    double smallest = Change.between(0, 0, error).smallest();
    assertThat(Change.between(0, smallest, error).reliable()).isFalse();
    assertThat(Change.between(0, smallest + 0.001, error).reliable()).isTrue();
    assertThat(Change.between(0, -smallest - 0.001, error).reliable()).isTrue();
  }

  /** An error in percent of the value: 100 and 200 N.m at 5 % err by 5 and 10 N.m. */
  @Test
  void errorInPercent_growsWithTheValue() {
    Change change = Change.between(100, 200, error(5, true, 1.96));
    assertThat(change.smallest()).isCloseTo(1.96 * Math.sqrt(125), within(1e-9));
  }

  /** Nobody hops, twice: no change, and an error in percent of nothing. Arithmetic, no source. */
  @Test
  void errorInPercent_ofZeroTwice_isNoChange() {
    Change change = Change.between(0, 0, error(11.1, true, 1.96));
    assertThat(change).isEqualTo(new Change(0, 0, 0));
    assertThat(change.reliable()).isFalse();
  }

  /** Weeks 0, 4, 8; symmetry 80, 86, 93; SEM 3.49: worked by hand, ordinary least squares. */
  @Test
  void slope_withKnownError_isAsWorkedByHand() {
    List<Reading> readings = List.of(new Reading(0, 80), new Reading(4, 86), new Reading(8, 93));
    Slope slope = Slope.knowing(3.49, 1.96, readings);

    assertThat(slope.perWeek()).isCloseTo(1.625, within(1e-12));
    assertThat(slope.standardError()).isCloseTo(0.617, within(0.0005));
    assertThat(slope.interval().low()).isCloseTo(0.416, within(0.0005));
    assertThat(slope.interval().high()).isCloseTo(2.834, within(0.0005));
    assertThat(slope.reliable()).isTrue();
  }
}

package evenside.cohort;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class ShareTest {

  /** Counts and printed percentages of published cohorts; sources stand on top of the file. */
  @ParameterizedTest
  @CsvFileSource(resources = "/published/pass-shares.csv")
  void share_isAsPrinted(String source, int count, int of, double printed, double tolerance) {
    assertThat(Share.of(count, of).percent()).isCloseTo(printed, within(tolerance));
  }

  /**
   * Wellsandt (2017), J Orthop Sports Phys Ther 47:334: sensitivity 0.818 (0.523–0.949), counts
   * implied. Its lower limit of 3 of 11 is printed as 0.010, taken for a misprint of 0.10.
   */
  @ParameterizedTest
  @CsvSource({"9, 11, 52.3, 94.9", "3, 11, 9.7, 56.6"})
  void interval_isAsPrinted(int count, int of, double low, double high) {
    Share share = Share.of(count, of);
    assertThat(share.low()).isCloseTo(low, within(0.05));
    assertThat(share.high()).isCloseTo(high, within(0.05));
  }

  /** By scipy 1.17.1, binomtest(k, n).proportion_ci(method="wilson"). */
  @ParameterizedTest
  @CsvSource({
    "0, 1, 0, 79.34506856227625",
    "1, 1, 20.654931437723747, 100",
    "1, 2, 9.453120573423075, 90.54687942657694",
    "0, 5, 0, 43.44824647831748",
    "5, 5, 56.551753521682514, 100",
    "3, 11, 9.746059290024892, 56.56453011761292"
  })
  void interval_ofFewPeople_isThatOfAnotherProgram(int count, int of, double low, double high) {
    Share share = Share.of(count, of);
    assertThat(share.low()).isCloseTo(low, within(1e-9));
    assertThat(share.high()).isCloseTo(high, within(1e-9));
  }

  @Test
  void noneAndAll_haveAnInterval() {
    assertThat(Share.of(0, 28).low()).isZero();
    assertThat(Share.of(0, 28).high()).isPositive();
    assertThat(Share.of(28, 28).high()).isEqualTo(100);
    assertThat(Share.of(28, 28).low()).isLessThan(100);
  }

  /** Own limits, no source. */
  @ParameterizedTest
  @CsvSource({"1, 0", "-1, 5", "6, 5"})
  void impossibleCount_isRefused(int count, int of) {
    assertThatThrownBy(() -> Share.of(count, of)).hasMessageContaining(count + " of " + of);
  }
}

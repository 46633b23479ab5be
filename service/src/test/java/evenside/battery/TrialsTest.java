package evenside.battery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import evenside.measure.Aggregation;
import evenside.measure.Better;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class TrialsTest {
  private static final List<Trial> TRIALS =
      List.of(
          new Trial(2.4, null),
          new Trial(1.1, "false-start"),
          new Trial(2.2, null),
          new Trial(9.9, "loss-of-balance"),
          new Trial(null, "equipment"),
          new Trial(2.0, null));

  /**
   * Arithmetic by hand; that best and mean are both in use, and which trials count, is common
   * practice, no source.
   */
  @ParameterizedTest
  @CsvSource({
    "BEST, HIGHER, 2.4",
    "BEST, LOWER, 2.0",
    "MEAN, HIGHER, 2.2",
    "MEAN, LOWER, 2.2",
    "MEAN, NEITHER, 2.2"
  })
  void score_comesFromTheTrialsThatCount(Aggregation aggregation, Better better, double score) {
    assertThat(Trials.score(TRIALS, aggregation, better)).isEqualTo(score);
  }

  /** Invented trials, to exercise the refusal in every way of joining them. */
  @ParameterizedTest
  @EnumSource(Aggregation.class)
  void noTrialThatCounts_isRefused(Aggregation aggregation) {
    List<Trial> none = List.of(new Trial(150.0, "landing-not-held"), new Trial(null, "other"));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Trials.score(none, aggregation, Better.HIGHER))
        .withMessageContaining("no trial counts among 2");
  }

  @Test
  void bestOfAMeasureWithoutDirection_isRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Trials.score(TRIALS, Aggregation.BEST, Better.NEITHER));
  }

  /** Landing errors 4.9, 5.1 and 5.0 have the mean 5, which is not below five. */
  @Test
  void meanOfDecimals_isTheDecimalOnPaper() {
    List<Trial> trials = List.of(new Trial(4.9, null), new Trial(5.1, null), new Trial(5.0, null));
    assertThat(Trials.score(trials, Aggregation.MEAN, Better.LOWER)).isEqualTo(5.0);
    List<Trial> tenths = List.of(new Trial(0.1, null), new Trial(0.2, null), new Trial(0.3, null));
    assertThat(Trials.score(tenths, Aggregation.MEAN, Better.LOWER)).isEqualTo(0.2);
  }
}

package evenside.decision;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RepeatLooksTest {
  /** Probability of at least one of m independent events, by hand; four looks give 18.5 %. */
  @ParameterizedTest
  @CsvSource({"0, 0", "1, 5", "2, 9.75", "4, 18.5"})
  void chance_growsWithEveryLook(int batteries, double percent) {
    assertThat(new RepeatLooks(batteries).chanceOfFalseChange()).isCloseTo(percent, within(0.05));
  }

  @Test
  void fourteenDays_endWithTheDateDecidedFor() {
    assertThat(RepeatLooks.firstDay(LocalDate.of(2026, 3, 14))).isEqualTo("2026-03-01");
  }

  @Test
  void batteries_belowZero() {
    assertThatThrownBy(() -> new RepeatLooks(-1)).hasMessageContaining("-1");
  }
}

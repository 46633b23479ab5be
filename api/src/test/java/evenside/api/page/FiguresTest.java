package evenside.api.page;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiguresTest {
  /** Half-up rounding worked by hand. */
  @ParameterizedTest
  @CsvSource({
    "87.934782609, 87.9",
    "92.159090909, 92.2",
    "2.065217391, 2.07",
    "-1.5, −1.5",
    "0, 0"
  })
  void number_isRoundedForReading(double value, String text) {
    assertThat(Figures.number(value)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({"89.96, 90, 89.96", "89.9999, 90, 89.9999", "90, 90, 90", "88.04, 90, 88"})
  void number_shortOfItsBound_neverLooksEqualToIt(double value, double bound, String text) {
    assertThat(Figures.beside(value, bound)).isEqualTo(text);
  }

  @Test
  void unit_isWrittenAsTheTradeDoes() {
    assertThat(Figures.quantity(161.8, "N.m")).isEqualTo("161.8\u00a0N·m");
    assertThat(Figures.quantity(131.1, "deg")).isEqualTo("131.1°");
    assertThat(Figures.quantity(90, "{score}")).isEqualTo("90");
    assertThat(Figures.quantity(90, "%")).isEqualTo("90\u00a0%");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "other side not tested (2026-11-20) | other side not tested (20 Nov 2026)",
        "set 2020.1, not 2026-13-40 | set 2020.1, not 2026-13-40"
      })
  void sentence_ofADocument_hasItsDaysInWords(String sentence, String read) {
    assertThat(Figures.withDays(sentence)).isEqualTo(read);
  }

  @Test
  void day_isWrittenInFull() {
    assertThat(Figures.day("2026-11-05")).isEqualTo("5 November 2026");
  }
}

package evenside.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class ComparatorTest {
  /** What the four signs mean; arithmetic, no source. */
  @ParameterizedTest
  @CsvSource({
    "'>', false, false, true",
    "'>=', false, true, true",
    "'<', true, false, false",
    "'<=', true, true, false"
  })
  void comparator_belowAtAndAboveTheBound(String symbol, boolean below, boolean at, boolean above) {
    Comparator comparator = Comparator.of(symbol);
    assertThat(comparator.test(Math.nextDown(90.0), 90)).isEqualTo(below);
    assertThat(comparator.test(90, 90)).isEqualTo(at);
    assertThat(comparator.test(Math.nextUp(90.0), 90)).isEqualTo(above);
  }

  /** Arithmetic by hand against 90 and 11, no source. */
  @ParameterizedTest
  @CsvSource({"'>', 92.5, 2.5", "'>=', 88, -2", "'<', 10.4, 0.6", "'<=', 12, -1", "'>', 90, 0"})
  void margin_isPositiveBeyondTheBound(String symbol, double value, double margin) {
    double bound = symbol.startsWith(">") ? 90 : 11;
    assertThat(Comparator.of(symbol).margin(value, bound)).isEqualTo(margin);
  }

  /** Arithmetic: of numbers above zero the reciprocals stand in the opposite order. */
  @ParameterizedTest
  @EnumSource(Comparator.class)
  void inversion_comparesTheReciprocals(Comparator comparator) {
    for (double value : new double[] {0.5, 1, 2}) {
      assertThat(comparator.inverted().test(1 / value, 1)).isEqualTo(comparator.test(value, 1));
    }
    assertThat(comparator.inverted().inverted()).isEqualTo(comparator);
  }

  /** Invented spellings, to exercise the refusal. */
  @ParameterizedTest
  @ValueSource(strings = {"", "=", "==", "=>", "at-least"})
  void anythingElse_isRefused(String symbol) {
    assertThatIllegalArgumentException().isThrownBy(() -> Comparator.of(symbol));
  }

  @Test
  void words_sayWhetherTheBoundItselfPasses() {
    assertThat(Comparator.ABOVE.words()).isEqualTo("more than");
    assertThat(Comparator.AT_LEAST.words()).isEqualTo("at least");
    assertThat(Comparator.BELOW.words()).isEqualTo("less than");
    assertThat(Comparator.AT_MOST.words()).isEqualTo("at most");
  }
}

package evenside.questionnaire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class InstrumentTest {
  private static final Item ONE = new Item("1", List.of(0.0, 1.0, 2.0), false);
  private static final Item TWO = new Item("2", List.of(0.0, 1.0, 2.0), true);

  @Test
  void sum_over_fewer_than_all_items_is_refused() {
    assertThatThrownBy(() -> instrument(Formula.SUM, 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("invented")
        .hasMessageContaining("asks for 1 of 2 items");
    assertThat(instrument(Formula.MEAN, 1).missingRules()).hasSize(1);
  }

  @Test
  void rule_that_asks_for_no_answer_or_for_too_many_is_refused() {
    assertThatThrownBy(() -> instrument(Formula.MEAN, 0)).hasMessageContaining("asks for 0 of 2");
    assertThatThrownBy(() -> instrument(Formula.MEAN, 3)).hasMessageContaining("asks for 3 of 2");
  }

  @Test
  void formula_that_does_not_fit_its_items_is_refused() {
    Item fromOne = new Item("3", List.of(1.0, 2.0), false);
    assertThatThrownBy(() -> new ScoreRule("m", List.of(fromOne), Formula.PERCENT_OF_MAXIMUM))
        .hasMessageContaining("percent-of-maximum");
    assertThatThrownBy(() -> new ScoreRule("m", List.of(ONE, TWO), Formula.VALUE))
        .hasMessageContaining("does not fit its 2 items");
    assertThatThrownBy(() -> new ScoreRule("m", List.of(ONE), Formula.DIFFERENCE))
        .hasMessageContaining("does not fit its 1 items");
  }

  @Test
  void item_without_a_choice_is_refused() {
    assertThatThrownBy(() -> new Item("1", List.of(4.0), false))
        .hasMessageContaining("item 1 allows [4.0]");
  }

  @Test
  void bands_must_come_highest_first() {
    List<BandSet.Band> bands = List.of(new BandSet.Band("poor", 0), new BandSet.Band("good", 50));
    assertThatThrownBy(() -> new BandSet("upside-down", "m", bands))
        .hasMessageContaining("upside-down");
  }

  @Test
  void score_reported_beside_other_answers_stays_reported() {
    Instrument instrument = instrument(Formula.MEAN, 2);
    Sheet sheet =
        new Sheet(instrument, instrument.missingRules().get(0), Map.of(), Map.of("m", 1.5));
    assertThat(sheet.outcomes()).containsExactly(new Outcome.Scored("m", 1.5, null));
    assertThat(ScoreOrigin.of(sheet, sheet.outcomes().get(0)).valueSource())
        .isEqualTo("reported-only");
  }

  private static Instrument instrument(Formula formula, int needed) {
    return new Instrument(
        "invented",
        "1",
        List.of(ONE, TWO),
        List.of(new ScoreRule("m", List.of(ONE, TWO), formula)),
        List.of(new MissingRule("some", Map.of("m", needed))),
        List.of(),
        List.of());
  }
}

package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import tools.jackson.databind.JsonNode;

/** What holds for every published questionnaire beyond its schema. */
class InstrumentsTest {

  private static final Contract CONTRACT = Contract.published();

  @SuppressWarnings("unused") // read by name
  private static final List<JsonNode> INSTRUMENTS = CONTRACT.instruments();

  private static final Set<String> SOURCES =
      texts(CONTRACT.catalogue("sources").path("sources"), "key");

  @ParameterizedTest
  @FieldSource("INSTRUMENTS")
  void every_source_is_in_the_catalogue(JsonNode instrument) {
    Set<String> cited = new HashSet<>();
    instrument.path("sources").forEach(key -> cited.add(key.asString()));
    instrument.findValues("source").forEach(key -> cited.add(key.asString()));
    assertThat(SOURCES).containsAll(cited);
  }

  @ParameterizedTest
  @FieldSource("INSTRUMENTS")
  void every_item_named_is_an_item(JsonNode instrument) {
    Set<String> items = texts(instrument.path("items"), "item");
    assertThat(items).hasSameSizeAs(instrument.path("items"));
    assertThat(items).containsAll(texts(instrument.path("flags"), "item"));
    instrument
        .path("scores")
        .forEach(
            score -> score.path("items").forEach(i -> assertThat(items).contains(i.asString())));
  }

  @ParameterizedTest
  @FieldSource("INSTRUMENTS")
  void every_measure_named_is_one_of_its_scores(JsonNode instrument) {
    Set<String> measures = texts(instrument.path("scores"), "measure");
    assertThat(measures).containsAll(texts(instrument.path("figures"), "measure"));
    assertThat(measures).containsAll(texts(instrument.path("bandSets"), "measure"));
    instrument
        .path("missingRules")
        .forEach(rule -> assertThat(texts(rule.path("needed"), "measure")).isEqualTo(measures));
  }

  /** A figure from memory is shown as such: the source says so, or the note does. */
  @ParameterizedTest
  @FieldSource("INSTRUMENTS")
  void every_unverified_figure_says_why(JsonNode instrument) {
    for (JsonNode figure : instrument.path("figures")) {
      if (!figure.path("verified").asBoolean()) {
        assertThat(figure.path("note").asString(""))
            .as(figure.toString())
            .containsPattern("memory|second-hand|[Dd]erived");
      }
    }
  }

  @Test
  void no_measure_belongs_to_two_instruments() {
    List<String> measures =
        INSTRUMENTS.stream()
            .flatMap(one -> one.path("scores").valueStream())
            .map(score -> score.path("measure").asString())
            .toList();
    assertThat(measures).doesNotHaveDuplicates();
  }

  /**
   * Items are numbers with at most one word: nothing that is printed in a questionnaire may stand
   * here.
   */
  @Test
  void no_item_has_more_than_a_number_and_one_word() {
    for (JsonNode instrument : INSTRUMENTS) {
      for (JsonNode item : instrument.path("items")) {
        assertThat(item.propertyNames())
            .isSubsetOf("item", "domain", "from", "to", "step", "values", "reversed");
        assertThat(item.path("domain").asString("")).doesNotContain(" ");
      }
    }
  }

  private static Set<String> texts(JsonNode list, String member) {
    return list.valueStream().map(one -> one.path(member).asString()).collect(Collectors.toSet());
  }
}

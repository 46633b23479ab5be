package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import tools.jackson.databind.JsonNode;

/**
 * What holds for every published questionnaire beyond its schema; the tables are the published
 * files themselves.
 */
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

  /**
   * A change of one person at 95 % is standard error × 1.96 × √2, printed to two decimals at most:
   * 5.7 gives 15.8 (Faleide 2020), 2.54 gives 7.04 and 3.2 gives 8.87 (by hand).
   */
  @Test
  void detectable_change_follows_from_the_standard_error() {
    int pairs = 0;
    for (JsonNode instrument : INSTRUMENTS) {
      for (JsonNode error : figures(instrument, "sem")) {
        for (JsonNode change : figures(instrument, "mdc")) {
          assertThat(change.path("value").asDouble())
              .isCloseTo(error.path("value").asDouble() * 1.96 * Math.sqrt(2), within(0.005));
          pairs++;
        }
      }
    }
    assertThat(pairs).isEqualTo(3);
  }

  private static List<JsonNode> figures(JsonNode instrument, String kind) {
    return instrument
        .path("figures")
        .valueStream()
        .filter(figure -> figure.path("kind").asString().equals(kind))
        .toList();
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

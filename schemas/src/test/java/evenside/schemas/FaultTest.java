package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class FaultTest {

  private static final Contract CONTRACT = Contract.published();

  /** The examples of RFC 6901, section 6. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '`',
      value = {
        "``; #",
        "/foo; #/foo",
        "/foo/0; #/foo/0",
        "/; #/",
        "/a~1b; #/a~1b",
        "/c%d; #/c%25d",
        "/e^f; #/e%5Ef",
        "/g|h; #/g%7Ch",
        "/i\\j; #/i%5Cj",
        "/k\"l; #/k%22l",
        "`/ `; #/%20",
        "/m~0n; #/m~0n"
      })
  void fragment_as_in_rfc_6901(String pointer, String fragment) {
    assertThat(Fault.fragment(JsonPointer.compile(pointer))).isEqualTo(fragment);
  }

  @Test
  void fragment_of_any_character_is_a_uri_fragment_and_comes_back() {
    String name =
        IntStream.rangeClosed(1, 0x2FF)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
            + "\uD834\uDD1E";
    JsonPointer place = JsonPointer.empty().appendProperty(name);
    URI uri = URI.create(Fault.fragment(place));
    assertThat(uri.getFragment()).isEqualTo(place.toString());
  }

  @Test
  void order_is_by_pointer_then_code_and_pairs_stand_once() {
    Fault late = Fault.at(JsonPointer.compile("/b"), "a", "first");
    Fault early = Fault.at(JsonPointer.compile("/a"), "b", "");
    Fault earlier = Fault.at(JsonPointer.compile("/a"), "a", "");
    Fault again = Fault.at(JsonPointer.compile("/b"), "a", "second");
    assertThat(Faults.inOrder(List.of(late, early, earlier, again)))
        .containsExactly(earlier, early, late);
  }

  @Test
  void detail_never_repeats_what_was_sent() {
    JsonNode secret =
        read("{\"schemaVersion\":\"1.0\",\"subject\":\"Jane Doe of Exampleton\",\"sex\":\"qqq\"}");
    assertThat(CONTRACT.validate("case", secret))
        .noneMatch(fault -> fault.detail().contains("Jane") || fault.detail().contains("qqq"));
  }

  @Test
  void unit_fault_says_the_unit_and_the_rule() {
    JsonNode battery = Corpus.everything("battery").document().deepCopy();
    ((ObjectNode) battery.at("/results/hopDistance/0")).put("unit", "m");
    assertThat(CONTRACT.validate("battery", battery))
        .containsExactly(
            Fault.at(JsonPointer.compile("/results/hopDistance/0/unit"), "unit.wrong", "must be cm")
                .withLimit("cm")
                .withSchema(
                    "https://evenside.example/schemas/1.0/battery.schema.json"
                        + "#/$defs/hopDistance/properties/unit/const"));
  }

  /** Where one of several members is enough, each of them is named. */
  @Test
  void missing_member_fault_says_what_may_stand_in_its_place() {
    assertThat(CONTRACT.validate("decision-request", read("{\"schemaVersion\":\"1.0\"}")))
        .extracting(Fault::pointer, Fault::detail)
        .containsExactly(tuple("#/milestone", "must be there, or criteriaSet in its place"));
    ObjectNode battery = (ObjectNode) Corpus.everything("battery").document().deepCopy();
    ((ObjectNode) battery.at("/results/jumpHeight/0/trials/0")).removeAll();
    assertThat(CONTRACT.validate("battery", battery))
        .extracting(Fault::pointer, Fault::detail)
        .containsExactly(
            tuple(
                "#/results/jumpHeight/0/trials/0/value",
                "must be there, or invalidReason or flightTime in its place"));
    battery.remove("performedAt");
    assertThat(CONTRACT.validate("battery", battery).get(0).detail())
        .isEqualTo("is required and not there");
  }

  /** Invented faults; the words are the contract’s own. */
  @ParameterizedTest
  @CsvSource({
    "subject, Anna B, letters of the English alphabet",
    "operatedSide, middle, must be one of: left",
    "schemaVersion, 2.0, 'must be \"1.0\", in quotes'"
  })
  void fault_says_in_words_what_is_taken(String member, String sent, String said) {
    ObjectNode person = (ObjectNode) Corpus.everything("case").document().deepCopy();
    person.put(member, sent);
    assertThat(CONTRACT.validate("case", person))
        .singleElement()
        .satisfies(fault -> assertThat(fault.detail()).contains(said));
  }

  @Test
  void test_without_a_trial_that_counts_is_led_to_not_performed() {
    ObjectNode battery = (ObjectNode) Corpus.everything("battery").document().deepCopy();
    battery
        .at("/results/hopDistance/0/trials")
        .forEach(trial -> ((ObjectNode) trial).put("invalidReason", "pain"));
    assertThat(CONTRACT.validate("battery", battery))
        .singleElement()
        .satisfies(fault -> assertThat(fault.detail()).contains("under notPerformed"));
  }

  @Test
  void unknown_member_fault_lists_the_known_ones() {
    Fault fault =
        CONTRACT
            .validate(
                "decision-request",
                read("{\"schemaVersion\":\"1.0\",\"milestone\":\"start-running\",\"x\":1}"))
            .get(0);
    assertThat(fault.limit())
        .hasValue("schemaVersion, milestone, criteriaSet, asOf, maxResultAgeDays");
  }

  @Test
  void ten_thousand_unknown_members_are_ten_thousand_faults() {
    StringBuilder text =
        new StringBuilder("{\"schemaVersion\":\"1.0\",\"milestone\":\"start-running\"");
    IntStream.range(0, 10_000).forEach(i -> text.append(",\"m").append(i).append("\":0"));
    assertThat(CONTRACT.validate("decision-request", read(text + "}"))).hasSize(10_000);
  }

  private static JsonNode read(String text) {
    return StrictJson.read(text.getBytes(StandardCharsets.UTF_8), StrictJson.Limits.REQUEST);
  }
}

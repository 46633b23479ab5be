package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

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
    ((tools.jackson.databind.node.ObjectNode) battery.at("/results/hopDistance/0"))
        .put("unit", "m");
    assertThat(CONTRACT.validate("battery", battery))
        .containsExactly(
            Fault.at(JsonPointer.compile("/results/hopDistance/0/unit"), "unit.wrong", "must be cm")
                .withLimit("cm")
                .withSchema(
                    "https://evenside.example/schemas/1.0/battery.schema.json"
                        + "#/$defs/hopDistance/properties/unit/const"));
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

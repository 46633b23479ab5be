package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The published list of fault codes and the codes in this module are the same. */
class FaultCodesTest {

  private static final JsonNode CODES = Contract.published().catalogue("fault-codes").path("codes");

  @Test
  void text_codes_are_those_of_the_reader() {
    assertThat(published("text"))
        .containsExactlyElementsOf(
            Arrays.stream(NotJson.Reason.values()).map(NotJson.Reason::code).toList());
  }

  @Test
  void schema_codes_are_those_of_the_check() {
    assertThat(published("schema"))
        .containsExactlyInAnyOrderElementsOf(
            Arrays.stream(FaultCode.values()).map(FaultCode::code).toList());
  }

  @Test
  void no_code_stands_twice() {
    List<String> all = CODES.valueStream().map(code -> code.path("code").asString()).toList();
    assertThat(all).doesNotHaveDuplicates();
  }

  @Test
  void every_schema_code_has_an_example() {
    Set<String> seen =
        Corpus.invalid().stream()
            .flatMap(sample -> Corpus.expected(sample).stream())
            .map(Corpus.PlaceAndCode::code)
            .collect(Collectors.toCollection(TreeSet::new));
    // The three about counts need long documents; the mutation check makes those.
    seen.addAll(List.of("list.too-long", "object.too-many-members", "text.too-long"));
    assertThat(seen).containsExactlyInAnyOrderElementsOf(published("schema"));
  }

  private static List<String> published(String layer) {
    return CODES
        .valueStream()
        .filter(code -> code.path("layer").asString().equals(layer))
        .map(code -> code.path("code").asString())
        .toList();
  }
}

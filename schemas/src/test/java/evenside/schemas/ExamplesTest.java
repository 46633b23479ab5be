package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.Corpus.PlaceAndCode;
import evenside.schemas.Corpus.Sample;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every example file against its schema. The expected faults were written down from the schema and
 * the fault by hand, one entry for each thing that a person would have to put right.
 */
class ExamplesTest {

  private static final String FAULT =
      "https://evenside.example/schemas/1.0/common.schema.json#/$defs/fault";

  private static final Contract CONTRACT = Contract.published();
  private static final SchemaSet SCHEMAS = new SchemaSet(Publish.schemas(Corpus.FOLDER));

  @ParameterizedTest
  @MethodSource("evenside.schemas.Corpus#valid")
  void valid_example_has_no_fault(Sample sample) {
    assertThat(CONTRACT.validate(sample.kind(), sample.document())).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("evenside.schemas.Corpus#invalid")
  void invalid_example_has_exactly_its_faults(Sample sample) {
    List<Fault> faults = CONTRACT.validate(sample.kind(), sample.document());
    assertThat(faults.stream().map(PlaceAndCode::of).toList())
        .isNotEmpty()
        .containsExactlyElementsOf(Corpus.expected(sample));
  }

  @ParameterizedTest
  @MethodSource("evenside.schemas.Corpus#invalid")
  void fault_says_what_the_common_schema_asks(Sample sample) {
    for (Fault fault : CONTRACT.validate(sample.kind(), sample.document())) {
      assertThat(SCHEMAS.errors(FAULT, fault.toJson())).isEmpty();
      assertThat(fault.schema()).isPresent();
    }
  }

  @Test
  void every_input_kind_has_its_examples() {
    Map<String, Long> valid = counts(Corpus.valid());
    Map<String, Long> invalid = counts(Corpus.invalid());
    for (String kind : Corpus.INPUT_KINDS) {
      assertThat(valid.get(kind)).as(kind).isGreaterThanOrEqualTo(3);
      assertThat(invalid.get(kind)).as(kind).isGreaterThanOrEqualTo(6);
    }
  }

  private static Map<String, Long> counts(List<Sample> samples) {
    return samples.stream().collect(Collectors.groupingBy(Sample::kind, Collectors.counting()));
  }
}

package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.Corpus.Sample;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;

/**
 * A second general-purpose validator, json-schema by harrel 1.8.2, reaches the same verdict on
 * every example and on every broken document: the schemas mean what they say, whoever reads them.
 */
class SecondValidatorTest {

  private static final Contract CONTRACT = Contract.published();
  private static final OutsideValidator SECOND =
      OutsideValidator.of(Publish.schemas(Corpus.FOLDER).values().stream().map(Object::toString));

  @ParameterizedTest
  @FieldSource("evenside.schemas.Corpus#INPUT_KINDS")
  void both_validators_agree(String kind) {
    List<String> apart = new ArrayList<>();
    List<Sample> samples = samples(kind);
    for (Sample sample : samples) {
      boolean first = CONTRACT.validate(kind, sample.document()).isEmpty();
      if (first != secondTakes(sample)) {
        apart.add(sample.name() + ": the service says " + (first ? "valid" : "invalid"));
      }
    }
    assertThat(apart).isEmpty();
    assertThat(samples).hasSizeGreaterThan(20);
  }

  @Test
  void every_published_set_and_catalogue_is_valid_for_both() {
    CONTRACT
        .criteriaSets()
        .forEach(set -> assertThat(secondTakes(new Sample("criteria-set", "", set))).isTrue());
    CONTRACT
        .progressions()
        .forEach(set -> assertThat(secondTakes(new Sample("progression", "", set))).isTrue());
    for (String name : CONTRACT.catalogues()) {
      assertThat(secondTakes(new Sample(name, name, CONTRACT.catalogue(name)))).as(name).isTrue();
    }
  }

  private static boolean secondTakes(Sample sample) {
    return SECOND.takes(sample.kind(), sample.document().toString());
  }

  private static List<Sample> samples(String kind) {
    return Stream.of(Corpus.valid(), Corpus.invalid(), Mutants.broken(kind))
        .flatMap(List::stream)
        .filter(sample -> sample.kind().equals(kind))
        .toList();
  }
}

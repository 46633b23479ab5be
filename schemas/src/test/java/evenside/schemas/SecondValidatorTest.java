package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import dev.harrel.jsonschema.FormatEvaluatorFactory;
import dev.harrel.jsonschema.Validator;
import dev.harrel.jsonschema.ValidatorFactory;
import dev.harrel.jsonschema.providers.JacksonNode;
import evenside.schemas.Corpus.Sample;
import java.net.URI;
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
  private static final Validator SECOND = second();

  @SuppressWarnings("unused") // read by name
  private static final List<String> INPUT_KINDS = Corpus.INPUT_KINDS;

  @ParameterizedTest
  @FieldSource("INPUT_KINDS")
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
    URI schema =
        URI.create("https://evenside.example/schemas/1.0/" + sample.kind() + ".schema.json");
    return SECOND.validate(schema, sample.document().toString()).isValid();
  }

  private static List<Sample> samples(String kind) {
    return Stream.of(Corpus.valid(), Corpus.invalid(), Mutants.broken(kind))
        .flatMap(List::stream)
        .filter(sample -> sample.kind().equals(kind))
        .toList();
  }

  private static Validator second() {
    ObjectMapper mapper =
        JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();
    Validator validator =
        new ValidatorFactory()
            .withJsonNodeFactory(new JacksonNode.Factory(mapper))
            .withEvaluatorFactory(new FormatEvaluatorFactory())
            .createValidator();
    Publish.schemas(Corpus.FOLDER)
        .values()
        .forEach(schema -> validator.registerSchema(schema.toString()));
    return validator;
  }
}

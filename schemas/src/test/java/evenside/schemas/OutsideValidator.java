package evenside.schemas;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import dev.harrel.jsonschema.FormatEvaluatorFactory;
import dev.harrel.jsonschema.Validator;
import dev.harrel.jsonschema.ValidatorFactory;
import dev.harrel.jsonschema.providers.JacksonNode;
import java.net.URI;
import java.util.stream.Stream;

/** A validator by other people than the service's own, as an integrator may use it. */
final class OutsideValidator {
  private final Validator validator;

  private OutsideValidator(Validator validator) {
    this.validator = validator;
  }

  /** Knows these schemas and fetches none. */
  static OutsideValidator of(Stream<String> schemas) {
    ObjectMapper mapper =
        JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();
    Validator validator =
        new ValidatorFactory()
            .withJsonNodeFactory(new JacksonNode.Factory(mapper))
            .withEvaluatorFactory(new FormatEvaluatorFactory())
            .createValidator();
    schemas.forEach(validator::registerSchema);
    return new OutsideValidator(validator);
  }

  boolean takes(String kind, String document) {
    URI schema = URI.create("https://evenside.example/schemas/1.0/" + kind + ".schema.json");
    return validator.validate(schema, document).isValid();
  }
}

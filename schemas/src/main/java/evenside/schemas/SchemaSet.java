package evenside.schemas;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaException;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.SpecificationVersion;
import com.networknt.schema.path.PathType;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * JSON Schemas (draft 2020-12) that know each other by {@code $id}. Nothing is ever fetched: a
 * reference to anything else fails.
 */
final class SchemaSet {

  private final Map<String, JsonNode> schemas;
  private final Map<String, Schema> compiled = new ConcurrentHashMap<>();

  // Guarded by this; made when it is first needed, which may be long after the start.
  private @Nullable SchemaRegistry registry;

  /**
   * @param schemas every schema by its {@code $id}
   */
  SchemaSet(Map<String, JsonNode> schemas) {
    this.schemas = Map.copyOf(schemas);
  }

  /**
   * Compiles a schema and everything it refers to.
   *
   * @param uri the {@code $id}, or one with a fragment
   * @throws IllegalStateException if it is not there or refers to what is not there
   */
  Schema compile(String uri) {
    return compiled.computeIfAbsent(uri, this::load);
  }

  /** One at a time, as schemas that refer to the same parts share them. */
  private synchronized Schema load(String uri) {
    try {
      if (registry == null) {
        registry = registry(schemas);
      }
      Schema schema = registry.getSchema(SchemaLocation.of(uri));
      schema.initializeValidators();
      return schema;
    } catch (SchemaException broken) {
      throw new IllegalStateException("the schema " + uri + " cannot be used", broken);
    }
  }

  private static SchemaRegistry registry(Map<String, JsonNode> schemas) {
    Map<String, String> texts =
        schemas.entrySet().stream()
            .collect(Collectors.toMap(Map.Entry::getKey, schema -> schema.getValue().toString()));
    SchemaRegistryConfig config =
        SchemaRegistryConfig.builder()
            .formatAssertionsEnabled(true) // the draft itself only takes note of formats
            .pathType(PathType.JSON_POINTER)
            .locale(Locale.ENGLISH)
            .preloadSchema(true)
            .cacheRefs(true)
            .build();
    return SchemaRegistry.withDefaultDialect(
        SpecificationVersion.DRAFT_2020_12,
        builder -> builder.schemas(texts).schemaRegistryConfig(config));
  }

  /** Everything the validator reports, in its own terms. */
  List<Error> errors(String uri, JsonNode document) {
    return compile(uri).validate(document);
  }
}

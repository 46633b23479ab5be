package evenside.api.openapi;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.path.PathType;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;

/** {@code openapi.yaml} as a thing to be asked. */
final class OpenApi {
  private static final String ID = "https://evenside.example/openapi.json";

  private final JsonNode document = Repository.openApi();
  private final SchemaRegistry registry =
      SchemaRegistry.withDialect(
          Dialects.getOpenApi31(),
          builder ->
              builder
                  .schemas(Map.of(ID, document.toString()))
                  .schemaRegistryConfig(
                      SchemaRegistryConfig.builder()
                          .formatAssertionsEnabled(true)
                          .pathType(PathType.JSON_POINTER)
                          .build()));
  private final Map<String, Schema> schemas = new ConcurrentHashMap<>();

  JsonNode document() {
    return document;
  }

  /** The path template that a path fits, one without parameters first. */
  Optional<String> template(String path) {
    List<String> fitting = new ArrayList<>();
    for (String template : document.path("paths").propertyNames()) {
      String form = Pattern.quote(template).replaceAll("\\{[^}]*}", "\\\\E[^/]+\\\\Q");
      if (path.matches(form)) {
        fitting.add(template);
      }
    }
    return fitting.stream().min((a, b) -> Boolean.compare(a.contains("{"), b.contains("{")));
  }

  /** The operation of a template, if its method is listed. */
  Optional<JsonNode> operation(String template, String method) {
    JsonNode operation =
        document.path("paths").path(template).path(method.toLowerCase(java.util.Locale.ROOT));
    return operation.isMissingNode() ? Optional.empty() : Optional.of(operation);
  }

  /** The documented response of a status; {@code default} stands for server faults only. */
  JsonNode response(JsonNode operation, int status, String exchange) {
    JsonNode responses = operation.path("responses");
    JsonNode response = responses.path(Integer.toString(status));
    if (response.isMissingNode() && status >= 500) {
      response = responses.path("default");
    }
    if (response.isMissingNode()) {
      throw new AssertionError(exchange + ": the status is not documented");
    }
    return resolved(response);
  }

  /** The form of a documented header. */
  String headerPattern(JsonNode response, String name) {
    for (Map.Entry<String, JsonNode> header : response.path("headers").properties()) {
      if (header.getKey().equalsIgnoreCase(name)) {
        return resolved(header.getValue()).path("schema").path("pattern").asString(".*");
      }
    }
    return ".*";
  }

  /** What is wrong with a body by a component schema. */
  List<Error> errors(String component, JsonNode body) {
    Schema schema =
        schemas.computeIfAbsent(
            component,
            name -> registry.getSchema(SchemaLocation.of(ID + "#/components/schemas/" + name)));
    return schema.validate(body);
  }

  /** The last part of a reference. */
  static String name(String reference) {
    return reference.substring(reference.lastIndexOf('/') + 1);
  }

  JsonNode resolved(JsonNode node) {
    String reference = node.path("$ref").asString("");
    return reference.isEmpty() ? node : resolved(document.at(reference.substring(1)));
  }
}

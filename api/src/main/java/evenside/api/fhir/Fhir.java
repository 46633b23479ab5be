package evenside.api.fhir;

import java.math.BigDecimal;
import java.util.List;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Elements of FHIR resources, and their bytes. */
public final class Fhir {
  /** Media type of a resource. */
  public static final String MEDIA_TYPE = "application/fhir+json";

  /** Where our resources, code systems and identifiers are named; nothing is fetched from it. */
  static final String BASE = "https://evenside.example/fhir/";

  static final String UCUM = "http://unitsofmeasure.org";
  static final String RESOURCE_TYPE = "resourceType";

  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  /** Plain notation: some readers of FHIR do not take an exponent. */
  private static final JsonMapper MAPPER =
      JsonMapper.builder(JsonFactory.builder().characterEscapes(new NoControls()).build())
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
          .build();

  private Fhir() {}

  /** The bytes of a resource, UTF-8. */
  public static byte[] bytes(JsonNode resource) {
    return MAPPER.writeValueAsBytes(resource);
  }

  /** A resource with nothing but its type and id. */
  static ObjectNode resource(String type, String id) {
    return JSON.objectNode().put(RESOURCE_TYPE, type).put("id", id);
  }

  /** A collection of resources, each under the address that relative references lead to. */
  public static ObjectNode bundle(List<ObjectNode> resources) {
    ObjectNode bundle = JSON.objectNode().put(RESOURCE_TYPE, "Bundle").put("type", "collection");
    ArrayNode entries = bundle.putArray("entry");
    for (ObjectNode resource : resources) {
      entries.addObject().put("fullUrl", BASE + address(resource)).set("resource", resource);
    }
    return bundle;
  }

  /** Type and id of a resource, as relative references have them. */
  public static String address(JsonNode resource) {
    return resource.path(RESOURCE_TYPE).asString() + "/" + resource.path("id").asString();
  }

  static ObjectNode reference(String type, String id) {
    return JSON.objectNode().put("reference", type + "/" + id);
  }

  static ObjectNode reference(JsonNode resource) {
    return JSON.objectNode().put("reference", address(resource));
  }

  /** An identifier of one of our kinds, for example of a subject. */
  static ObjectNode identifier(String kind, String value) {
    return JSON.objectNode().put("system", BASE + "id/" + kind).put("value", value);
  }

  /** A reference to what only an identifier is known of. */
  static ObjectNode logical(String kind, String value) {
    ObjectNode reference = JSON.objectNode();
    reference.set("identifier", identifier(kind, value));
    return reference;
  }

  /** The same with the type of what is meant. */
  static ObjectNode logical(String type, String kind, String value) {
    ObjectNode reference = JSON.objectNode().put("type", type);
    reference.set("identifier", identifier(kind, value));
    return reference;
  }

  /** One concept in the words of one or more code systems. */
  static ObjectNode concept(List<ObjectNode> codings) {
    ObjectNode concept = JSON.objectNode();
    concept.putArray("coding").addAll(codings);
    return concept;
  }

  static ObjectNode concept(ObjectNode coding) {
    return concept(List.of(coding));
  }

  /** A number with its UCUM unit. */
  static ObjectNode quantity(JsonNode value, String unit) {
    ObjectNode quantity = JSON.objectNode();
    quantity.put("value", plain(value));
    return quantity.put("unit", unit).put("system", UCUM).put("code", unit);
  }

  /** {@code {value, unit}} of ours. */
  static ObjectNode quantity(JsonNode ours) {
    return quantity(ours.path("value"), ours.path("unit").asString());
  }

  static ObjectNode object() {
    return JSON.objectNode();
  }

  private static BigDecimal plain(JsonNode number) {
    BigDecimal value = number.decimalValue().stripTrailingZeros();
    return value.scale() < 0 ? value.setScale(0) : value;
  }
}

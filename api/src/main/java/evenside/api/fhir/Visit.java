package evenside.api.fhir;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A battery as it is served, with what each of its results counts as.
 *
 * @param document the battery record
 * @param results one entry per result: pointer, measure, role and value
 * @param subject reference of the person
 */
public record Visit(JsonNode document, JsonNode results, String subject) {

  String id() {
    return document.path("batteryId").asString();
  }

  JsonNode battery() {
    return document.path("battery");
  }

  String performedAt() {
    return battery().path("performedAt").asString();
  }

  /** The knee that an aspect or role means: left or right. */
  String side(boolean operated) {
    String side = battery().path("operatedSide").asString();
    boolean left = side.equals("left") == operated;
    return left ? "left" : "right";
  }

  ObjectNode person() {
    return person(subject);
  }

  /** Only a pseudonym is known of a person. */
  static ObjectNode person(String subject) {
    return Fhir.logical("Patient", "subject", subject);
  }

  /** An Observation of this day, to be filled in. */
  ObjectNode observation(String idSuffix, ObjectNode category, ObjectNode code) {
    ObjectNode json = Fhir.resource("Observation", id() + "-" + idSuffix).put("status", "final");
    json.putArray("category").add(category);
    json.set("code", code);
    json.set("subject", person());
    return json.put("effectiveDateTime", performedAt());
  }

  /** Id of the Observation that holds the result at a pointer inside the battery. */
  static String observationId(String batteryId, String pointer) {
    return batteryId + "-" + idSuffix(pointer);
  }

  /** {@code /results/hopDistance/0} is {@code hopDistance-0}. */
  static String idSuffix(String pointer) {
    return pointer.replace("/results/", "").replace('/', '-');
  }

  ObjectNode reference(String pointer) {
    return Fhir.reference("Observation", observationId(id(), pointer));
  }

  /** The value a result counts as; missing where the battery gives none, as of a test not done. */
  JsonNode value(String pointer, String measure) {
    for (JsonNode result : results) {
      boolean same = result.path("pointer").asString().equals(pointer);
      if (same && result.path("measure").asString().equals(measure)) {
        return result.path("value");
      }
    }
    return Fhir.object().path("value");
  }

  /** References to the results of a measure that were obtained in one way. */
  List<ObjectNode> references(String measure, JsonNode protocol) {
    List<ObjectNode> found = new ArrayList<>();
    for (JsonNode result : results) {
      boolean same = result.path("measure").asString().equals(measure);
      if (same && result.path("protocol").equals(protocol)) {
        found.add(reference(result.path("pointer").asString()));
      }
    }
    return found;
  }
}

package evenside.api.fhir;

import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a decision says, as a Parameters resource: outcome, every criterion with value, bound, error
 * and source, the groups as parts inside parts, and the cautions.
 */
final class FindingParameters {
  static final String ID = "output";

  ObjectNode of(JsonNode decision) {
    ObjectNode json = Fhir.resource("Parameters", ID);
    ArrayNode all = json.putArray("parameter");
    text(all, "outcome", "valueCode", decision.path("outcome"));
    text(all, "summary", "valueString", decision.path("summary"));
    text(all, "asOf", "valueDate", decision.path("asOf"));
    text(all, "engineVersion", "valueString", decision.path("engineVersion"));
    add(all, "required", decision.path("finding"));
    decision.path("informative").forEach(finding -> add(all, "informative", finding));
    decision.path("cautions").forEach(caution -> addCaution(all, caution));
    addLooks(all, decision.path("repeatLooks"));
    return json;
  }

  private void add(ArrayNode into, String name, JsonNode finding) {
    ArrayNode parts = into.addObject().put("name", name).putArray("part");
    text(parts, "id", "valueCode", finding.path("id"));
    text(parts, "type", "valueCode", finding.path("type"));
    text(parts, "title", "valueString", finding.path("title"));
    text(parts, "result", "valueCode", finding.path("outcome"));
    value(parts, "observed", finding.path("value"));
    addBound(parts, finding.path("bound"));
    value(parts, "margin", finding.path("margin"));
    text(parts, "toMeet", "valueString", finding.at("/toMeet/text"));
    addError(parts, finding.path("measurementError"));
    text(parts, "reason", "valueCode", finding.at("/reason/code"));
    text(parts, "reasonText", "valueString", finding.at("/reason/text"));
    text(parts, "source", "valueString", finding.at("/citation/text"));
    if (finding.has("verified")) {
      parts.addObject().put("name", "verified").put("valueBoolean", flag(finding, "verified"));
    }
    text(parts, "note", "valueString", finding.path("note"));
    finding.path("inputs").forEach(input -> addInput(parts, input));
    finding.path("sessions").forEach(session -> addSession(parts, session));
    finding.path("of").forEach(part -> add(parts, "criterion", part));
  }

  private static void addBound(ArrayNode parts, JsonNode bound) {
    text(parts, "comparator", "valueString", bound.path("comparator"));
    value(parts, "bound", bound.has("unit") ? bound : bound.path("value"));
  }

  private static void addError(ArrayNode parts, JsonNode error) {
    value(parts, "sem", error.path("sem"));
    if (error.has("withinErrorOfBound")) {
      parts
          .addObject()
          .put("name", "withinErrorOfBound")
          .put("valueBoolean", flag(error, "withinErrorOfBound"));
    }
    text(parts, "errorSource", "valueString", error.path("source"));
  }

  private static void addInput(ArrayNode parts, JsonNode input) {
    String id =
        Visit.observationId(input.path("batteryId").asString(), input.path("pointer").asString());
    parts.addObject().put("name", "input").set("valueReference", Fhir.reference("Observation", id));
  }

  private static void addSession(ArrayNode parts, JsonNode session) {
    parts
        .addObject()
        .put("name", "input")
        .set("valueReference", Fhir.reference("Procedure", session.path("sessionId").asString()));
  }

  private static void addCaution(ArrayNode all, JsonNode caution) {
    ArrayNode parts = all.addObject().put("name", "caution").putArray("part");
    text(parts, "code", "valueCode", caution.path("code"));
    text(parts, "text", "valueString", caution.path("text"));
    parts.addObject().put("name", "urgent").put("valueBoolean", flag(caution, "urgent"));
    text(parts, "source", "valueString", caution.path("source"));
  }

  private static void addLooks(ArrayNode all, JsonNode looks) {
    ArrayNode parts = all.addObject().put("name", "repeatLooks").putArray("part");
    for (String count : java.util.List.of("days", "batteries")) {
      parts.addObject().put("name", count).put("valueInteger", looks.path(count).asInt());
    }
    value(parts, "chanceOfFalseChange", looks.path("chanceOfFalseChange"));
  }

  private static void text(ArrayNode into, String name, String type, JsonNode value) {
    if (!value.isMissingNode()) {
      into.addObject().put("name", name).put(type, value.asString());
    }
  }

  /** A quantity, a yes/no, or a grade. */
  private static void value(ArrayNode into, String name, JsonNode value) {
    if (value.isMissingNode()) {
      return;
    }
    ObjectNode part = into.addObject().put("name", name);
    if (value.isObject()) {
      part.set("valueQuantity", Fhir.quantity(value));
    } else if (value.isBoolean()) {
      part.put("valueBoolean", value.booleanValue());
    } else {
      part.put("valueCode", value.asString());
    }
  }

  private static boolean flag(JsonNode node, String name) {
    return node.path(name).asBoolean(false);
  }
}

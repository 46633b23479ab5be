package evenside.document;

import evenside.assessment.AssessedBattery;
import evenside.measure.Input;
import evenside.measure.Measured;
import java.util.LinkedHashMap;
import java.util.Map;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What each result of a battery counts as once its trials are joined, as JSON. */
public final class ResultDocument {
  private ResultDocument() {}

  /** One entry per result: pointer, measure, value, aggregation, and the role of its leg. */
  public static ArrayNode of(AssessedBattery assessed) {
    Map<String, Input> inputs = new LinkedHashMap<>();
    for (Measured measured : assessed.measured()) {
      for (Input input : measured.inputs()) {
        inputs.put(input.pointer() + " " + input.measure(), input);
      }
    }
    ArrayNode results = JsonNodeFactory.instance.arrayNode();
    inputs.values().forEach(input -> results.add(one(input)));
    return results;
  }

  private static ObjectNode one(Input input) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("pointer", input.pointer()).put("measure", input.measure());
    if (input.side() != null) {
      json.put("side", input.side().code()).put("role", input.operated() ? "operated" : "other");
    }
    FindingDocument.value(json, "value", input.value());
    json.set("protocol", FindingDocument.protocol(input.protocol()));
    return json.put("aggregation", input.aggregation().code());
  }
}

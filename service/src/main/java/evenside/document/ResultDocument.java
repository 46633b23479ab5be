package evenside.document;

import evenside.assessment.AssessedBattery;
import evenside.measure.Input;
import evenside.measure.Measured;
import java.util.LinkedHashMap;
import java.util.Map;

/** What each result of a battery counts as once its trials are joined, as JSON. */
public final class ResultDocument {
  private ResultDocument() {}

  /** One entry per result: pointer, measure, value, aggregation, and the role of its leg. */
  public static Document of(AssessedBattery assessed) {
    Map<String, Input> inputs = new LinkedHashMap<>();
    for (Measured measured : assessed.measured()) {
      for (Input input : measured.inputs()) {
        inputs.put(input.pointer() + " " + input.measure(), input);
      }
    }
    return Document.written(json -> json.array(inputs.values(), ResultDocument::one));
  }

  private static void one(CanonicalWriter json, Input input) {
    json.object().put("aggregation", input.aggregation().code());
    json.put("measure", input.measure()).put("pointer", input.pointer());
    ProtocolDocument.write(json.name("protocol"), input.protocol());
    if (input.side() != null) {
      json.put("role", input.operated() ? "operated" : "other").put("side", input.side().code());
    }
    FindingDocument.value(json.name("value"), input.value());
    json.end();
  }
}

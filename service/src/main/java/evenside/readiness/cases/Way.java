package evenside.readiness.cases;

import evenside.document.Document;
import evenside.measure.Measured;
import evenside.measure.Protocol;
import evenside.readiness.recording.Records;
import evenside.schemas.StrictJson;
import java.nio.charset.StandardCharsets;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * All of how a number came about, so that only like is compared with like over time.
 *
 * @param protocol how it was tested
 * @param aggregation how trials became the score
 */
public record Way(Protocol protocol, String aggregation) {

  static Way of(Measured measured) {
    return new Way(measured.protocol(), measured.inputs().get(0).aggregation().code());
  }

  /** Canonical JSON; equal for equal ways. */
  String text() {
    ObjectNode json = Records.object().put("aggregation", aggregation);
    ObjectNode terms = json.putObject("protocol");
    protocol
        .terms()
        .forEach(
            (name, term) -> {
              if (term instanceof Double number) {
                terms.put(name, number);
              } else if (term instanceof Boolean flag) {
                terms.put(name, flag);
              } else {
                terms.put(name, term.toString());
              }
            });
    return new String(Document.of(json).bytes(), StandardCharsets.UTF_8);
  }

  /** Reads what {@link #text} wrote. */
  public static Way parse(String text) {
    JsonNode json = StrictJson.read(text.getBytes(StandardCharsets.UTF_8), StrictJson.Limits.OWN);
    TreeMap<String, Object> terms = new TreeMap<>();
    json.path("protocol")
        .properties()
        .forEach(term -> terms.put(term.getKey(), term(term.getValue())));
    return new Way(new Protocol(terms), json.path("aggregation").asString());
  }

  private static Object term(JsonNode json) {
    if (json.isNumber()) {
      return json.asDouble();
    }
    return json.isBoolean() ? (Object) json.asBoolean() : json.asString();
  }
}

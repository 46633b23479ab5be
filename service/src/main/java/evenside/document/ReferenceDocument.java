package evenside.document;

import evenside.measure.ReferenceValue;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A published figure about other people, as it stands beside a finding. */
final class ReferenceDocument {
  private ReferenceDocument() {}

  static ObjectNode of(ReferenceValue value) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    put(json, "high", value.high());
    json.put("id", value.id());
    put(json, "low", value.low());
    put(json, "mean", value.mean());
    json.put("note", value.note()).put("population", value.population());
    put(json, "sd", value.sd());
    if (value.sex() != null) {
      json.put("sex", value.sex().name().toLowerCase(Locale.ROOT));
    }
    json.put("source", value.source()).put("statistic", value.statistic());
    json.put("unit", value.unit());
    put(json, "value", value.value());
    return json.put("verified", value.verified());
  }

  private static void put(ObjectNode json, String name, @Nullable Double number) {
    if (number != null) {
      json.put(name, number);
    }
  }
}

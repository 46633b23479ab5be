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
    json.put("id", value.id()).put("statistic", value.statistic());
    if (value.sex() != null) {
      json.put("sex", value.sex().name().toLowerCase(Locale.ROOT));
    }
    put(json, "mean", value.mean());
    put(json, "sd", value.sd());
    put(json, "low", value.low());
    put(json, "high", value.high());
    put(json, "value", value.value());
    json.put("unit", value.unit());
    json.put("population", value.population()).put("source", value.source());
    json.put("verified", value.verified()).put("note", value.note());
    return json;
  }

  private static void put(ObjectNode json, String name, @Nullable Double number) {
    if (number != null) {
      json.put(name, number);
    }
  }
}

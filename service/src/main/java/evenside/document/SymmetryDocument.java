package evenside.document;

import evenside.assessment.SideComparison;
import evenside.quantity.Quantity;
import java.util.List;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Both legs of a battery, test by test, as JSON. */
public final class SymmetryDocument {
  private SymmetryDocument() {}

  public static ArrayNode of(List<SideComparison> comparisons) {
    ArrayNode array = JsonNodeFactory.instance.arrayNode();
    comparisons.forEach(comparison -> array.add(one(comparison)));
    return array;
  }

  private static ObjectNode one(SideComparison comparison) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("measure", comparison.measure().code());
    json.set("protocol", FindingDocument.protocol(comparison.protocol()));
    json.put("unit", comparison.measure().unit());
    json.put("aggregation", comparison.aggregation().code());
    if (comparison.operated() != null) {
      json.put("operated", comparison.operated());
    }
    if (comparison.other() != null) {
      json.put("other", comparison.other());
    }
    if (comparison.symmetry() != null) {
      json.set("symmetry", FindingDocument.quantity(new Quantity(comparison.symmetry(), "%")));
    }
    if (comparison.gap() != null) {
      json.putObject("reason")
          .put("code", comparison.gap().reason().code())
          .put("text", comparison.gap().detail());
    }
    return json;
  }
}

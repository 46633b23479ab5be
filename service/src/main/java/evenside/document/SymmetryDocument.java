package evenside.document;

import evenside.assessment.SideComparison;
import evenside.assessment.SymmetryInterval;
import evenside.measure.MeasurementError;
import evenside.quantity.Quantity;
import evenside.symmetry.Interval;
import evenside.symmetry.SymmetryIndex;
import java.util.List;
import java.util.OptionalDouble;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Both legs of a battery, test by test, as JSON. */
public final class SymmetryDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  /** The threshold that most published sets use; each index is shown with its value there. */
  private static final double USUAL_THRESHOLD = 90;

  private SymmetryDocument() {}

  /**
   * Every comparison.
   *
   * @param indices other indices asked for; empty for the limb symmetry index alone
   */
  public static ArrayNode of(List<SideComparison> comparisons, List<SymmetryIndex> indices) {
    ArrayNode array = JSON.arrayNode();
    comparisons.forEach(comparison -> array.add(one(comparison, indices)));
    return array;
  }

  private static ObjectNode one(SideComparison comparison, List<SymmetryIndex> indices) {
    ObjectNode json = JSON.objectNode();
    String unit = comparison.measure().unit();
    json.put("aggregation", comparison.first().aggregation().code());
    if (comparison.difference() != null) {
      json.set("difference", FindingDocument.quantity(new Quantity(comparison.difference(), unit)));
    }
    if (!indices.isEmpty()) {
      comparison.legs().ifPresent(legs -> json.set("indices", indices(legs, indices)));
    }
    if (comparison.interval() != null) {
      json.set("interval", interval(comparison.interval()));
    }
    json.put("measure", comparison.measure().code());
    comparison.operated().ifPresent(score -> json.put("operated", score));
    comparison.other().ifPresent(score -> json.put("other", score));
    json.set("protocol", FindingDocument.protocol(comparison.first().protocol()));
    if (comparison.gap() != null) {
      json.putObject("reason")
          .put("code", comparison.gap().reason().code())
          .put("text", comparison.gap().detail());
    }
    if (comparison.symmetry() != null) {
      json.set("symmetry", FindingDocument.quantity(new Quantity(comparison.symmetry(), "%")));
    }
    return json.put("unit", unit);
  }

  private static ObjectNode interval(SymmetryInterval interval) {
    ObjectNode json = JSON.objectNode();
    json.put("method", interval.method()).put("basis", interval.basis().code());
    if (interval.interval() instanceof Interval.Bounded bounded) {
      json.put("bounded", true).put("low", bounded.low()).put("high", bounded.high());
    } else if (interval.interval() instanceof Interval.Unbounded unbounded) {
      json.put("bounded", false).put("unbounded", unbounded.kind().code());
    }
    json.put("z", interval.z());
    if (interval.rho() != null) {
      json.put("rho", interval.rho());
    }
    MeasurementError error = interval.error();
    if (error != null) {
      json.put("population", error.population()).put("source", error.source());
      json.put("verified", error.verified());
      FindingDocument.studiedAggregation(json, error);
    }
    return json;
  }

  private static ArrayNode indices(SymmetryIndex.Legs legs, List<SymmetryIndex> indices) {
    ArrayNode array = JSON.arrayNode();
    for (SymmetryIndex index : indices) {
      ObjectNode json = array.addObject().put("index", index.code());
      OptionalDouble value = index.of(legs);
      if (value.isPresent()) {
        json.set("value", FindingDocument.quantity(new Quantity(value.getAsDouble(), "%")));
      }
      if (index.translates()) {
        json.put("atLimbSymmetry90", index.atLimbSymmetry(USUAL_THRESHOLD));
      }
    }
    return array;
  }
}

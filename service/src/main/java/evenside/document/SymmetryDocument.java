package evenside.document;

import evenside.assessment.SideComparison;
import evenside.assessment.SymmetryInterval;
import evenside.measure.MeasurementError;
import evenside.symmetry.Interval;
import evenside.symmetry.SymmetryIndex;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** Both legs of a battery, test by test, as JSON. */
final class SymmetryDocument {
  /** The cut-off that most published sets use; each index is shown with its value there. */
  private static final double USUAL_THRESHOLD = 90;

  private SymmetryDocument() {}

  /**
   * Every comparison.
   *
   * @param indices other indices asked for; empty for the limb symmetry index alone
   */
  static void write(
      CanonicalWriter json, List<SideComparison> comparisons, List<SymmetryIndex> indices) {
    json.array();
    for (SideComparison comparison : comparisons) {
      one(json, comparison, indices);
    }
    json.end();
  }

  private static void one(
      CanonicalWriter json, SideComparison comparison, List<SymmetryIndex> indices) {
    String unit = comparison.measure().unit();
    json.object().put("aggregation", comparison.first().aggregation().code());
    if (comparison.difference() != null) {
      FindingDocument.quantity(json.name("difference"), comparison.difference(), unit);
    }
    if (!indices.isEmpty()) {
      indices(json, comparison.legs(), indices);
    }
    if (comparison.interval() != null) {
      interval(json.name("interval"), comparison.interval());
    }
    json.put("measure", comparison.measure().code());
    score(json, "operated", comparison.operated());
    score(json, "other", comparison.other());
    ProtocolDocument.write(json.name("protocol"), comparison.first().protocol());
    if (comparison.gap() != null) {
      json.name("reason").object().put("code", comparison.gap().reason().code());
      json.put("text", comparison.gap().detail()).end();
    }
    if (comparison.symmetry() != null) {
      FindingDocument.quantity(json.name("symmetry"), comparison.symmetry(), "%");
    }
    json.put("unit", unit).end();
  }

  private static void score(CanonicalWriter json, String leg, OptionalDouble score) {
    if (score.isPresent()) {
      json.put(leg, score.getAsDouble());
    }
  }

  private static void interval(CanonicalWriter json, SymmetryInterval interval) {
    MeasurementError error = interval.error();
    json.object();
    if (error != null) {
      FindingDocument.studiedAggregation(json, error);
    }
    json.put("basis", interval.basis().code());
    if (interval.interval() instanceof Interval.Bounded bounded) {
      json.put("bounded", true).put("high", bounded.high()).put("low", bounded.low());
    } else {
      json.put("bounded", false);
    }
    json.put("method", interval.method());
    if (error != null) {
      json.put("population", error.population());
    }
    json.putIfAny("rho", interval.rho());
    if (error != null) {
      json.put("source", error.source());
    }
    if (interval.interval() instanceof Interval.Unbounded unbounded) {
      json.put("unbounded", unbounded.kind().code());
    }
    if (error != null) {
      json.put("verified", error.verified());
    }
    json.put("z", interval.z()).end();
  }

  private static void indices(
      CanonicalWriter json, Optional<SymmetryIndex.Legs> legs, List<SymmetryIndex> indices) {
    if (legs.isPresent()) {
      json.name("indices").array(indices, (to, index) -> index(to, index, legs.get()));
    }
  }

  private static void index(CanonicalWriter json, SymmetryIndex index, SymmetryIndex.Legs legs) {
    OptionalDouble value = index.of(legs);
    json.object();
    if (index.translates()) {
      json.put("atLimbSymmetry90", index.atLimbSymmetry(USUAL_THRESHOLD));
    }
    json.put("index", index.code());
    if (value.isPresent()) {
      FindingDocument.quantity(json.name("value"), value.getAsDouble(), "%");
    }
    json.end();
  }
}

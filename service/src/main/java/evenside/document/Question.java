package evenside.document;

import evenside.criteria.Criterion;
import evenside.criteria.FactCriterion;
import evenside.criteria.GradeBound;
import evenside.criteria.Threshold;
import evenside.criteria.TimeSinceSurgery;
import evenside.criteria.TrainingCriterion;
import evenside.measure.ProtocolRule;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What a criterion looks at, whatever its bound: the row of a comparison between sets. */
record Question(String measure, @Nullable String aspect, ProtocolRule rule) {

  static Question of(Criterion.Leaf leaf) {
    if (leaf instanceof Threshold threshold) {
      return new Question(threshold.measure(), threshold.aspect().code(), threshold.rule());
    }
    if (leaf instanceof GradeBound grade) {
      return new Question(grade.measure(), "operated", ProtocolRule.ANY);
    }
    if (leaf instanceof FactCriterion fact) {
      return new Question(fact.measure(), null, ProtocolRule.ANY);
    }
    if (leaf instanceof TrainingCriterion training) {
      String of = training.of().isEmpty() ? null : training.of();
      return new Question(training.fact(), of, ProtocolRule.ANY);
    }
    String unit = ((TimeSinceSurgery) leaf).unit();
    return new Question("time-since-surgery", unit, ProtocolRule.ANY);
  }

  /** A new row of the table, without cells. */
  ObjectNode row(ArrayNode table) {
    ObjectNode row = table.addObject().put("measure", measure);
    if (aspect != null) {
      row.put("aspect", aspect);
    }
    ObjectNode protocol = row.putObject("protocol");
    if (!rule.modes().isEmpty()) {
      ArrayNode modes = protocol.putArray("mode");
      new TreeSet<>(rule.modes()).forEach(modes::add);
    }
    if (rule.speed() != null) {
      protocol.putObject("speed").put("value", rule.speed()).put("unit", "deg/s");
    }
    if (rule.angle() != null) {
      protocol.putObject("angle").put("value", rule.angle()).put("unit", "deg");
    }
    if (rule.context() != null) {
      protocol.put("context", rule.context());
    }
    return row;
  }
}

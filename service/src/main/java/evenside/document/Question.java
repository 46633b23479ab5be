package evenside.document;

import evenside.criteria.Criterion;
import evenside.criteria.FactCriterion;
import evenside.criteria.GradeBound;
import evenside.criteria.NumberBound;
import evenside.criteria.TimeSinceSurgery;
import evenside.criteria.TrainingCriterion;
import evenside.measure.ProtocolRule;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** What a criterion looks at, whatever its bound: the row of a comparison between sets. */
record Question(String measure, @Nullable String aspect, ProtocolRule rule) {

  static Question of(Criterion.Leaf leaf) {
    if (leaf instanceof NumberBound cutOff) {
      return new Question(cutOff.measure(), cutOff.aspect().code(), cutOff.rule());
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

  /** The ways of testing that count. */
  void protocol(CanonicalWriter json) {
    json.object();
    if (rule.angle() != null) {
      FindingDocument.quantity(json.name("angle"), rule.angle(), "deg");
    }
    json.putIfAny("context", rule.context());
    if (!rule.modes().isEmpty()) {
      json.name("mode").texts(new TreeSet<>(rule.modes()));
    }
    if (rule.speed() != null) {
      FindingDocument.quantity(json.name("speed"), rule.speed(), "deg/s");
    }
    json.end();
  }
}

package evenside.decision;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Finding;
import evenside.knee.KneeCase;
import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.Input;
import evenside.measure.Lookup;
import evenside.measure.Measured;
import evenside.measure.ProtocolRule;
import evenside.measure.Value;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * All that a caution may look at.
 *
 * @param kneeCase the case
 * @param set the criteria set
 * @param evidence what the batteries gave
 * @param leaves every single finding, required and informative
 * @param looks how often the knee was tested shortly before
 */
record Situation(
    KneeCase kneeCase,
    CriteriaSet set,
    Evidence evidence,
    List<Finding> leaves,
    RepeatLooks looks) {

  Stream<Input> inputs() {
    return leaves.stream().flatMap(leaf -> leaf.inputs().stream());
  }

  /** The value of the newest battery that holds this number, however old. */
  Optional<Value> newest(String measure, Aspect aspect) {
    Lookup lookup = evidence.newest(measure, aspect, ProtocolRule.ANY);
    if (lookup instanceof Lookup.Found found) {
      return first(found.candidates());
    }
    return lookup instanceof Lookup.TooOld old ? first(old.candidates()) : Optional.empty();
  }

  private static Optional<Value> first(List<Measured> candidates) {
    return candidates.stream().map(Measured::value).findFirst();
  }
}

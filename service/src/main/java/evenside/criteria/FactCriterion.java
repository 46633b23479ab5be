package evenside.criteria;

import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.Lookup;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Measured;
import evenside.measure.ProtocolRule;
import evenside.measure.Value;
import java.util.List;
import java.util.Optional;

/**
 * A yes/no fact stated by a clinician.
 *
 * @param about id, title, citation
 * @param measure code of the fact
 * @param expected the value that meets it
 */
public record FactCriterion(About about, String measure, boolean expected)
    implements Criterion.Leaf {

  @Override
  public String type() {
    return "fact";
  }

  @Override
  public Finding evaluate(Evidence evidence, MeasureCatalogue catalogue, boolean required) {
    Bound asked = new Bound(null, new Value.Fact(expected));
    Optional<Finding> outside = Judgement.outside(this, asked, evidence, required);
    if (outside.isPresent()) {
      return outside.get();
    }
    Lookup lookup = evidence.newest(measure, Aspect.VALUE, ProtocolRule.ANY);
    if (lookup instanceof Lookup.Missing gap) {
      return Judgement.missing(this, asked, required, gap);
    }
    if (lookup instanceof Lookup.TooOld old) {
      return Judgement.tooOld(this, asked, required, old, chosen(old.candidates()));
    }
    Measured measured = chosen(((Lookup.Found) lookup).candidates());
    boolean met = new Value.Fact(expected).equals(measured.value());
    String wanted = catalogue.get(measure).title() + ": " + asked.value();
    return new Finding(
        about.id(),
        type(),
        about.title(),
        Truth.of(met),
        required,
        measured.value(),
        asked,
        null,
        met ? null : new ToMeet(wanted, null, null, false, null),
        null,
        List.of(),
        measured.inputs(),
        met ? null : new Finding.Reason("other-answer", "stated: " + measured.value()),
        about,
        List.of());
  }

  /** Where batteries of one time contradict each other, the answer that does not meet it counts. */
  private Measured chosen(List<Measured> candidates) {
    Value wanted = new Value.Fact(expected);
    return Judgement.leastFavourable(
        candidates, true, measured -> measured.value().equals(wanted) ? 1 : 0);
  }
}

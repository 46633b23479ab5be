package evenside.criteria;

import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.Lookup;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Measured;
import evenside.measure.ProtocolRule;
import evenside.measure.Value;
import java.util.List;

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
  public Bound asked() {
    return new Bound(null, new Value.Fact(expected));
  }

  @Override
  public Finding judge(Evidence evidence, MeasureCatalogue catalogue, boolean required) {
    Lookup lookup = evidence.newest(measure, Aspect.VALUE, ProtocolRule.ANY);
    return Judgement.onNewest(
        this, lookup, required, this::chosen, measured -> compared(measured, catalogue, required));
  }

  private Finding compared(Measured measured, MeasureCatalogue catalogue, boolean required) {
    boolean met = new Value.Fact(expected).equals(measured.value());
    String wanted = catalogue.get(measure).title() + ": " + asked().value();
    return new Finding(
        about.id(),
        type(),
        about.title(),
        Truth.of(met),
        required,
        measured.value(),
        asked(),
        null,
        met ? null : new ToMeet(() -> wanted, null, null, false, null),
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

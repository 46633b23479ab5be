package evenside.criteria;

import evenside.measure.Aspect;
import evenside.measure.CatalogueEntry;
import evenside.measure.Evidence;
import evenside.measure.Lookup;
import evenside.measure.Measured;
import evenside.measure.ProtocolRule;
import evenside.measure.Value;
import java.util.List;

/**
 * A yes/no fact stated by a clinician.
 *
 * @param about id, title, citation
 * @param entry the fact in the catalogue
 * @param expected the value that meets it
 */
public record FactCriterion(About about, CatalogueEntry entry, boolean expected)
    implements TestedCriterion {

  /** Code of the fact. */
  public String measure() {
    return entry.code();
  }

  @Override
  public String type() {
    return "fact";
  }

  @Override
  public Bound asked() {
    return new Bound(null, new Value.Fact(expected));
  }

  @Override
  public Lookup newest(Evidence evidence) {
    return evidence.newest(measure(), Aspect.VALUE, ProtocolRule.ANY);
  }

  /** Where batteries of one time contradict each other, the answer that does not meet it counts. */
  @Override
  public double favour(Measured measured) {
    return meets(measured) ? 1 : 0;
  }

  @Override
  public Finding on(Measured measured, Evidence evidence, boolean required) {
    boolean met = meets(measured);
    return new SingleFinding(
        this,
        required,
        Truth.of(met),
        measured.value(),
        null,
        met ? null : toMeet(),
        met ? null : new Finding.Reason("other-answer", "stated: " + measured.value()),
        measured.inputs(),
        List.of());
  }

  private boolean meets(Measured measured) {
    return measured.value() instanceof Value.Fact fact && fact.holds() == expected;
  }

  private ToMeet toMeet() {
    String wanted = entry.measure().title() + ": " + asked().value();
    return new ToMeet(() -> wanted, null, null, false, null);
  }
}

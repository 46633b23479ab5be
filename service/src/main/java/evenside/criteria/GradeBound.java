package evenside.criteria;

import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.Lookup;
import evenside.measure.Measured;
import evenside.measure.ProtocolRule;
import evenside.measure.Value;
import evenside.signs.EffusionGrade;
import java.util.List;

/**
 * An effusion grade of the operated knee compared with a bound, by order.
 *
 * @param about id, title, citation
 * @param measure code of the measure
 * @param comparator how it is compared
 * @param bound the bounding grade
 */
public record GradeBound(About about, String measure, Comparator comparator, EffusionGrade bound)
    implements TestedCriterion {

  @Override
  public String type() {
    return "grade";
  }

  @Override
  public Bound asked() {
    return new Bound(comparator, new Value.Grade(bound));
  }

  @Override
  public Lookup newest(Evidence evidence) {
    return evidence.newest(measure, Aspect.OPERATED, ProtocolRule.ANY);
  }

  @Override
  public double favour(Measured measured) {
    return comparator.upward() ? rank(measured) : -rank(measured);
  }

  @Override
  public Finding on(Measured measured, Evidence evidence, boolean required) {
    boolean met = comparator.test(rank(measured), bound.rank());
    return new SingleFinding(
        this,
        required,
        Truth.of(met),
        measured.value(),
        null,
        met ? null : toMeet(),
        met ? null : reason(measured),
        measured.inputs(),
        List.of());
  }

  private ToMeet toMeet() {
    String text = "effusion of the operated knee: " + comparator.words() + " " + bound.code();
    return new ToMeet(() -> text, comparator, null, true, null);
  }

  private Finding.Reason reason(Measured measured) {
    String text =
        "grade " + measured.value() + "; asked for: " + comparator.words() + " " + bound.code();
    return new Finding.Reason("short-of-bound", text);
  }

  private static double rank(Measured measured) {
    if (measured.value() instanceof Value.Grade grade) {
      return grade.grade().rank();
    }
    throw new IllegalArgumentException(measured.measure() + " is not a grade");
  }
}

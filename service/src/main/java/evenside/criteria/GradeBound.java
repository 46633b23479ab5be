package evenside.criteria;

import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.Lookup;
import evenside.measure.MeasureCatalogue;
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
    implements Criterion.Leaf {

  @Override
  public String type() {
    return "grade";
  }

  @Override
  public Bound asked() {
    return new Bound(comparator, new Value.Grade(bound));
  }

  @Override
  public Finding judge(Evidence evidence, MeasureCatalogue catalogue, boolean required) {
    Lookup lookup = evidence.newest(measure, Aspect.OPERATED, ProtocolRule.ANY);
    return Judgement.onNewest(
        this, lookup, required, this::chosen, measured -> compared(measured, required));
  }

  private Finding compared(Measured measured, boolean required) {
    boolean met = comparator.test(rank(measured), bound.rank());
    return new Finding(
        about.id(),
        type(),
        about.title(),
        Truth.of(met),
        required,
        measured.value(),
        asked(),
        null,
        met ? null : toMeet(),
        null,
        List.of(),
        measured.inputs(),
        met ? null : reason(measured),
        about,
        List.of());
  }

  private Measured chosen(List<Measured> candidates) {
    return Judgement.leastFavourable(candidates, comparator.upward(), GradeBound::rank);
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

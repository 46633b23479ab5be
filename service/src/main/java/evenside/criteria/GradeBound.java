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
import java.util.Optional;

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
  public Finding evaluate(Evidence evidence, MeasureCatalogue catalogue, boolean required) {
    Bound asked = new Bound(comparator, new Value.Grade(bound));
    Optional<Finding> outside = Judgement.outside(this, asked, evidence, required);
    if (outside.isPresent()) {
      return outside.get();
    }
    Lookup lookup = evidence.newest(measure, Aspect.OPERATED, ProtocolRule.ANY);
    if (lookup instanceof Lookup.Missing gap) {
      return Judgement.missing(this, asked, required, gap);
    }
    if (lookup instanceof Lookup.TooOld old) {
      return Judgement.tooOld(this, asked, required, old, chosen(old.candidates()));
    }
    Measured measured = chosen(((Lookup.Found) lookup).candidates());
    boolean met = comparator.test(rank(measured), bound.rank());
    return new Finding(
        about.id(),
        type(),
        about.title(),
        Truth.of(met),
        required,
        measured.value(),
        asked,
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
    return new ToMeet(text, comparator, null, true, null);
  }

  private Finding.Reason reason(Measured measured) {
    String text =
        "grade " + measured.value() + "; asked for is " + comparator.words() + " " + bound.code();
    return new Finding.Reason("short-of-bound", text);
  }

  private static double rank(Measured measured) {
    if (measured.value() instanceof Value.Grade grade) {
      return grade.grade().rank();
    }
    throw new IllegalArgumentException(measured.measure() + " is not a grade");
  }
}

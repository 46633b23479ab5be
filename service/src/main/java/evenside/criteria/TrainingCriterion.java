package evenside.criteria;

import evenside.measure.Evidence;
import evenside.measure.Gap;
import evenside.measure.TrainingFact;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.util.List;
import java.util.Optional;

/**
 * A fact worked out from the training record, compared with a bound.
 *
 * <p>Shape: the record gives a range, from what it shows for certain to what it leaves open. Met if
 * all of the range meets the bound, not met if none of it does, else undetermined. A record without
 * the fact leaves it undetermined.
 *
 * @param about id, title, citation
 * @param fact which fact
 * @param of code of the progression or programme, or empty
 * @param comparator how it is compared
 * @param bound in the unit given
 * @param unit UCUM code
 */
public record TrainingCriterion(
    About about, String fact, String of, Comparator comparator, int bound, String unit)
    implements Criterion.Leaf {

  @Override
  public String type() {
    return "training";
  }

  @Override
  public Bound asked() {
    return new Bound(comparator, Value.Amount.of(bound, unit));
  }

  @Override
  public Finding judge(Evidence evidence, boolean required) {
    Optional<TrainingFact> found = evidence.training(fact, of);
    return found.isPresent()
        ? compared(found.get(), required)
        : SingleFinding.missing(
            this, required, Gap.Reason.NOT_RECORDED.code(), "the training record does not show it");
  }

  private Finding compared(TrainingFact seen, boolean required) {
    boolean certain = comparator.test(seen.certain(), bound);
    boolean possible = comparator.test(seen.possible(), bound);
    Truth truth = certain == possible ? Truth.of(certain) : Truth.UNDETERMINED;
    return new SingleFinding(
        this,
        required,
        truth,
        Value.Amount.of(seen.certain(), unit),
        new Quantity(comparator.margin(seen.certain(), bound), unit),
        truth == Truth.MET ? null : toMeet(),
        reason(seen, truth),
        List.of(),
        seen.uses());
  }

  private ToMeet toMeet() {
    Quantity needed = new Quantity(bound, unit);
    String wanted = about.title() + ": " + comparator.words() + " " + needed;
    return new ToMeet(() -> wanted, comparator, needed, false, null);
  }

  private Finding.@org.jspecify.annotations.Nullable Reason reason(TrainingFact seen, Truth truth) {
    return switch (truth) {
      case MET -> null;
      case NOT_MET ->
          new Finding.Reason(
              "short-of-bound",
              "seen: "
                  + new Quantity(seen.possible(), unit)
                  + "; asked for: "
                  + comparator.words()
                  + " "
                  + new Quantity(bound, unit));
      case UNDETERMINED ->
          new Finding.Reason(
              Gap.Reason.NOT_RECORDED.code(),
              "for certain "
                  + new Quantity(seen.certain(), unit)
                  + ", at most "
                  + new Quantity(seen.possible(), unit)
                  + "; some answers are not recorded yet");
    };
  }
}

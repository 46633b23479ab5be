package evenside.criteria;

import evenside.knee.Sex;
import evenside.measure.Evidence;
import evenside.measure.Gap;
import evenside.measure.Lookup;
import evenside.measure.Measured;
import evenside.measure.Value;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/** What the single criteria have in common: who they are for, and what a missing number means. */
final class Judgement {
  private Judgement() {}

  /** The finding for somebody the criterion is not for, or whose sex decides and is not stated. */
  static Optional<Finding> outside(
      Criterion.Leaf leaf, Bound bound, Evidence evidence, boolean required) {
    Sex onlyFor = leaf.about().onlyFor();
    if (onlyFor == null || onlyFor == evidence.sex()) {
      return Optional.empty();
    }
    if (evidence.sex() != Sex.NOT_STATED) {
      return Optional.of(Finding.notApplicable(leaf, leaf.about(), bound, required));
    }
    Gap.Reason reason = Gap.Reason.SEX_NOT_STATED;
    return Optional.of(
        missing(leaf, bound, required, reason, "this bound depends on sex, which is not stated"));
  }

  static Finding missing(
      Criterion.Leaf leaf, Bound bound, boolean required, Gap.Reason reason, String detail) {
    return Finding.undetermined(
        leaf,
        leaf.about(),
        bound,
        required,
        null,
        List.of(),
        new Finding.Reason(reason.code(), detail));
  }

  static Finding missing(Criterion.Leaf leaf, Bound bound, boolean required, Lookup.Missing gap) {
    return missing(leaf, bound, required, gap.reason(), gap.detail());
  }

  /** A stale number is shown, and decides nothing. */
  static Finding tooOld(
      Criterion.Leaf leaf, Bound bound, boolean required, Lookup.TooOld old, Measured measured) {
    Value value = measured.value();
    String detail =
        "the newest result is "
            + old.ageDays()
            + " days old; at most "
            + old.allowedDays()
            + " days are allowed";
    Finding.Reason reason = new Finding.Reason(Gap.Reason.TOO_OLD.code(), detail);
    return Finding.undetermined(
        leaf, leaf.about(), bound, required, value, measured.inputs(), reason);
  }

  /**
   * Where a criterion leaves the way of testing open and the newest day holds several, the one
   * furthest from meeting it counts: the cautious reading.
   */
  static Measured leastFavourable(
      List<Measured> candidates, boolean upward, ToDoubleFunction<Measured> number) {
    Comparator<Measured> ascending = Comparator.comparingDouble(number);
    return candidates.stream().min(upward ? ascending : ascending.reversed()).orElseThrow();
  }
}

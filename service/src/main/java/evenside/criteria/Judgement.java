package evenside.criteria;

import evenside.knee.Sex;
import evenside.measure.Evidence;
import evenside.measure.Gap;
import evenside.measure.Input;
import evenside.measure.Lookup;
import evenside.measure.Measured;
import evenside.measure.Value;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** What the single criteria have in common: who they are for, and what a missing number means. */
final class Judgement {
  private Judgement() {}

  /** The finding for somebody the criterion is not for, or whose sex decides and is not stated. */
  static Optional<Finding> outside(Criterion.Leaf leaf, Evidence evidence, boolean required) {
    Sex onlyFor = leaf.about().onlyFor();
    if (onlyFor == null || onlyFor == evidence.sex()) {
      return Optional.empty();
    }
    if (evidence.sex() != Sex.NOT_STATED) {
      return Optional.of(Finding.notApplicable(leaf, leaf.about(), leaf.asked(), required));
    }
    Gap.Reason reason = Gap.Reason.SEX_NOT_STATED;
    return Optional.of(
        missing(leaf, required, reason, "this criterion depends on sex, which is not stated"));
  }

  static Finding missing(Criterion.Leaf leaf, boolean required, Gap.Reason reason, String detail) {
    return undetermined(leaf, required, null, List.of(), new Finding.Reason(reason.code(), detail));
  }

  static Finding undetermined(
      Criterion.Leaf leaf,
      boolean required,
      @Nullable Value value,
      List<Input> inputs,
      Finding.Reason reason) {
    return Finding.undetermined(leaf, leaf.about(), leaf.asked(), required, value, inputs, reason);
  }

  /**
   * The finding on the newest results: what is missing is undetermined, and so is a stale number,
   * which is shown and decides nothing.
   *
   * @param chosen which of several results of one time counts
   * @param judged the finding on it
   */
  static Finding onNewest(
      Criterion.Leaf leaf,
      Lookup lookup,
      boolean required,
      Function<List<Measured>, Measured> chosen,
      Function<Measured, Finding> judged) {
    if (lookup instanceof Lookup.Missing gap) {
      return missing(leaf, required, gap.reason(), gap.detail());
    }
    if (lookup instanceof Lookup.TooOld old) {
      return tooOld(leaf, required, old, chosen.apply(old.candidates()));
    }
    return judged.apply(chosen.apply(((Lookup.Found) lookup).candidates()));
  }

  private static Finding tooOld(
      Criterion.Leaf leaf, boolean required, Lookup.TooOld old, Measured measured) {
    String detail =
        "the newest result is "
            + old.ageDays()
            + " days old; at most "
            + old.allowedDays()
            + " days are allowed";
    Finding.Reason reason = new Finding.Reason(Gap.Reason.TOO_OLD.code(), detail);
    return undetermined(leaf, required, measured.value(), measured.inputs(), reason);
  }

  /**
   * Where a criterion leaves the way of testing open and the newest day holds several, the one
   * furthest from meeting it counts: the cautious reading.
   */
  static Measured leastFavourable(
      List<Measured> candidates, boolean upward, ToDoubleFunction<Measured> number) {
    if (candidates.size() == 1) {
      return candidates.get(0);
    }
    Comparator<Measured> ascending = Comparator.comparingDouble(number);
    return candidates.stream().min(upward ? ascending : ascending.reversed()).orElseThrow();
  }
}

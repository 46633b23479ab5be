package evenside.criteria;

import evenside.measure.Evidence;
import evenside.measure.Gap;
import evenside.measure.Lookup;
import evenside.measure.Measured;
import java.util.List;

/** A criterion on the newest results of a test. */
sealed interface TestedCriterion extends Criterion.Leaf
    permits NumberBound, GradeBound, FactCriterion {

  /** What the evidence has for it. */
  Lookup newest(Evidence evidence);

  /** A number that is larger the nearer a result is to meeting the criterion. */
  double favour(Measured measured);

  /** The finding on one result. */
  Finding on(Measured measured, Evidence evidence, boolean required);

  /**
   * What is missing is undetermined, and so is a stale number, which is shown and decides nothing.
   */
  @Override
  default Finding judge(Evidence evidence, boolean required) {
    Lookup lookup = newest(evidence);
    if (lookup instanceof Lookup.Found found) {
      return on(leastFavourable(found.candidates()), evidence, required);
    }
    if (lookup instanceof Lookup.TooOld old) {
      return tooOld(old, required);
    }
    Lookup.Missing gap = (Lookup.Missing) lookup;
    return SingleFinding.missing(this, required, gap.reason().code(), gap.detail());
  }

  private Finding tooOld(Lookup.TooOld old, boolean required) {
    Measured measured = leastFavourable(old.candidates());
    String detail =
        "the newest result is "
            + days(old.ageDays())
            + " old, which is more than the "
            + days(old.allowedDays())
            + " allowed";
    Finding.Reason reason = new Finding.Reason(Gap.Reason.TOO_OLD.code(), detail);
    return SingleFinding.undetermined(this, required, measured.value(), measured.inputs(), reason);
  }

  private static String days(long number) {
    return number == 1 ? "1 day" : number + " days";
  }

  /**
   * Where a criterion leaves the way of testing open and the newest day holds several, the one
   * furthest from meeting it counts: the cautious reading.
   */
  private Measured leastFavourable(List<Measured> candidates) {
    Measured least = candidates.get(0);
    for (int i = 1; i < candidates.size(); i++) {
      if (Double.compare(favour(candidates.get(i)), favour(least)) < 0) {
        least = candidates.get(i);
      }
    }
    return least;
  }
}

package evenside.plan;

import evenside.criteria.Comparator;
import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.Finding;
import evenside.criteria.NumberBound;
import evenside.criteria.ToMeet;
import evenside.criteria.Truth;
import evenside.measure.Aspect;
import evenside.measure.Input;
import evenside.measure.MeasureCatalogue;
import evenside.measure.MeasurementError;
import evenside.trend.Projection;
import evenside.trend.Projection.Reason;
import evenside.trend.Projection.Refused;
import evenside.trend.Reading;
import evenside.trend.Series;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * When a criterion that is not met would be, if the recovery went on as it did.
 *
 * @param finding the criterion as it stands
 * @param gate the day from which a time criterion is met, or null
 * @param projection of the number, or null for a time criterion
 * @param readings how many tests it rests on
 * @param error published error of the test, or null
 */
public record Outlook(
    Finding finding,
    @Nullable LocalDate gate,
    @Nullable Projection projection,
    int readings,
    @Nullable MeasurementError error) {
  /** Level of every interval. */
  public static final double LEVEL = 0.95;

  /** Outlooks on all required criteria of a decision that are not met or undetermined. */
  public static List<Outlook> of(
      CriteriaSet set, Finding root, List<Series> series, MeasureCatalogue catalogue) {
    return root.leaves()
        .filter(leaf -> leaf.truth() == Truth.NOT_MET || leaf.truth() == Truth.UNDETERMINED)
        .map(leaf -> of(leaf, criterion(set, leaf.id()), series, catalogue))
        .toList();
  }

  private static Criterion.Leaf criterion(CriteriaSet set, String id) {
    return set.leaves().filter(leaf -> leaf.id().equals(id)).findFirst().orElseThrow();
  }

  private static Outlook of(
      Finding finding, Criterion.Leaf leaf, List<Series> series, MeasureCatalogue catalogue) {
    ToMeet toMeet = finding.toMeet();
    if (toMeet != null && toMeet.date() != null) {
      return new Outlook(finding, toMeet.date(), null, 0, null);
    }
    if (finding.truth() == Truth.UNDETERMINED || finding.inputs().isEmpty()) {
      Finding.Reason reason = finding.reason();
      String why = reason == null ? "there is no result" : reason.text();
      return refused(finding, Reason.UNDETERMINED, why);
    }
    if (!(leaf instanceof NumberBound cutOff)) {
      return refused(finding, Reason.NOT_A_NUMBER, "a grade or a fact is not projected");
    }
    return projected(finding, cutOff, series, catalogue);
  }

  private static Outlook refused(Finding finding, Reason reason, String text) {
    return new Outlook(finding, null, new Refused(reason, text), 0, null);
  }

  private static Outlook projected(
      Finding finding, NumberBound cutOff, List<Series> all, MeasureCatalogue catalogue) {
    Aim aim = Aim.of(cutOff, finding.toMeet());
    Input input = finding.inputs().get(0);
    Optional<Series> series =
        all.stream()
            .filter(one -> one.measure().code().equals(cutOff.measure()))
            .filter(one -> one.protocol().equals(input.protocol()))
            .filter(one -> one.aggregation().equals(input.aggregation().code()))
            .findFirst();
    List<Reading> readings = series.map(one -> one.readings(aim.aspect())).orElse(List.of());
    MeasurementError error =
        catalogue
            .errorOf(cutOff.measure(), aim.aspect(), input.protocol(), input.aggregation())
            .orElse(null);
    double halfWidth = error == null ? 0 : error.halfWidth(aim.bound());
    return new Outlook(
        finding,
        null,
        Projection.of(readings, aim.bound(), aim.comparator().upward(), LEVEL, halfWidth),
        readings.size(),
        error);
  }

  /**
   * The number that has to move. Pre-injury capacity is a constant share of the operated leg's
   * value, which is what was measured time and again.
   */
  private record Aim(Aspect aspect, Comparator comparator, double bound) {
    static Aim of(NumberBound cutOff, @Nullable ToMeet toMeet) {
      boolean derived = cutOff.aspect() == Aspect.PRE_INJURY_CAPACITY;
      if (derived && toMeet != null && toMeet.comparator() != null && toMeet.quantity() != null) {
        return new Aim(Aspect.OPERATED, toMeet.comparator(), toMeet.quantity().value());
      }
      return new Aim(cutOff.aspect(), cutOff.comparator(), cutOff.bound());
    }
  }
}

package evenside.plan;

import evenside.criteria.Criterion;
import evenside.criteria.Finding;
import evenside.measure.Aspect;
import evenside.measure.Input;
import evenside.measure.MeasureCatalogue;
import evenside.measure.MeasurementError;
import evenside.plan.Plan.Retest;
import evenside.quantity.Quantity;
import evenside.trend.Line;
import evenside.trend.Reading;
import evenside.trend.Series;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * When a test is worth repeating.
 *
 * <p>Shape: last test + z·√2·SEM / change per week of the fitted line. Before that day a change
 * that goes on as it did is smaller than the error of the test.
 *
 * <p>Unit: days.
 *
 * <p>Not computable: no test yet, no published error, an error in percent of a last value of zero,
 * or no line that moves.
 *
 * <p>Source: smallest detectable change as published for the test; the pace is the person's own.
 * The usual interval is common practice.
 */
final class RetestDay {
  private static final int DEFAULT_WEEKS = 6;

  private final LocalDate asOf;
  private final MeasureCatalogue catalogue;
  private final List<Series> series;

  RetestDay(LocalDate asOf, MeasureCatalogue catalogue, List<Series> series) {
    this.asOf = asOf;
    this.catalogue = catalogue;
    this.series = series;
  }

  Retest of(Finding finding, Criterion.Leaf leaf, String measure, List<FocusArea> focus) {
    int weeks = focus.stream().mapToInt(FocusArea::retestWeeks).min().orElse(DEFAULT_WEEKS);
    String mark = focus.isEmpty() ? "common-practice" : focus.get(0).mark();
    if (finding.inputs().isEmpty()) {
      return new Retest(asOf, weeks, mark, null, "not tested yet: test now");
    }
    Input input = finding.inputs().get(0);
    LocalDate usual = notBefore(input.performedOn().plusWeeks(weeks));
    Optional<Aspect> aspect = Planner.aspect(leaf);
    if (aspect.isEmpty()) {
      return new Retest(
          usual, weeks, mark, null, "a grade or a fact has no measurement error in numbers");
    }
    MeasurementError error =
        catalogue
            .errorOf(measure, aspect.get(), input.protocol(), input.aggregation())
            .orElse(null);
    if (error == null) {
      return new Retest(
          usual, weeks, mark, null, "no published measurement error of this test is known here");
    }
    return withError(usual, weeks, mark, error, readings(measure, aspect.get(), input), input);
  }

  private Retest withError(
      LocalDate usual,
      int weeks,
      String mark,
      MeasurementError error,
      List<Reading> readings,
      Input input) {
    @Nullable Line line = Line.fits(readings) ? Line.through(readings) : null;
    if (line == null) {
      return new Retest(usual, weeks, mark, null, "too few tests to tell how fast it changes");
    }
    if (line.slope() == 0) {
      String still = "no change over the " + readings.size() + " tests so far, so no pace to go by";
      return new Retest(usual, weeks, mark, null, still);
    }
    double last = readings.get(readings.size() - 1).value();
    double smallest = error.z() * Math.sqrt(2) * error.semAt(last);
    if (smallest == 0) {
      String share = "the error of this test is a share of its value, and the last value is zero";
      return new Retest(usual, weeks, mark, null, share);
    }
    double pace = Math.abs(line.slope());
    long days = (long) Math.ceil(7 * smallest / pace);
    String basis =
        "if it goes on at "
            + Quantity.text(line.slope())
            + " per week, as over "
            + readings.size()
            + " tests; a change of less than "
            + Quantity.text(smallest)
            + " is within measurement error (z "
            + Quantity.text(error.z())
            + ")";
    if (days > 2 * 365) {
      String none = "at the pace so far, no change beyond measurement error within two years";
      return new Retest(usual, weeks, mark, null, none);
    }
    return new Retest(usual, weeks, mark, notBefore(input.performedOn().plusDays(days)), basis);
  }

  private LocalDate notBefore(LocalDate day) {
    return day.isBefore(asOf) ? asOf : day;
  }

  private List<Reading> readings(String measure, Aspect aspect, Input input) {
    return series.stream()
        .filter(one -> one.measure().code().equals(measure))
        .filter(one -> one.protocol().equals(input.protocol()))
        .filter(one -> one.aggregation().equals(input.aggregation().code()))
        .findFirst()
        .map(one -> one.readings(aspect))
        .orElse(List.of());
  }
}

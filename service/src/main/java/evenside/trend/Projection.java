package evenside.trend;

import evenside.quantity.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When a series would reach a bound if it went on as it did.
 *
 * <p>Shape: the line reaches the bound at x* = (bound − intercept)/slope. Its interval holds every
 * time at which the bound lies inside the confidence band of the line (inverse regression by
 * Fieller's method); the interval for one more test holds every time at which the bound lies inside
 * the prediction band. Both solve, for d = x − x̄, D = bound − fit at x̄ and a = 1/n (or 1 + 1/n):
 * {@code (slope² − w²/Sxx)·d² − 2·slope·D·d + D² − w²·a = 0}. w = t·s from the scatter, or z·SEM of
 * the test if that is larger: a few readings can lie close to a line by luck.
 *
 * <p>Unit: weeks since surgery.
 *
 * <p>Not computable: fewer than four readings; all at one time; no improvement; a slope whose
 * interval holds zero, for then no finite interval exists; a time beyond 1.25 times the observed
 * span.
 *
 * <p>Source: Fieller (1954), J R Stat Soc B 16:175–185; Draper &amp; Smith, Applied Regression
 * Analysis, inverse regression (from memory); the refusals are own choices.
 */
public sealed interface Projection {
  /** Fewest readings. */
  int FEWEST = 4;

  /** How far a line may be run on, in observed spans counted from the first reading. */
  double REACH = 1.25;

  /**
   * A projected time.
   *
   * @param weeks when the line reaches the bound
   * @param line when it may reach it, given the scatter
   * @param singleTest when one test may show it
   * @param limit last time up to which the line may be run; ends of intervals beyond it are unknown
   */
  record Reached(double weeks, Interval line, Interval singleTest, double limit)
      implements Projection {}

  /**
   * No projection.
   *
   * @param reason why
   * @param text in words, with the numbers
   */
  record Refused(Reason reason, String text) implements Projection {}

  /** Why there is no projected time. */
  enum Reason {
    TOO_FEW_READINGS("too-few-readings"),
    /** All readings at one time, or no more than noise in time. */
    NO_SPAN("no-span"),
    /** The line does not move towards the bound. */
    NO_IMPROVEMENT("no-improvement"),
    /** It does, but so uncertainly that it might not. */
    SLOPE_UNCERTAIN("slope-uncertain"),
    /** The line has passed the bound already; the newest reading lies on the wrong side of it. */
    LINE_PAST_BOUND("line-past-bound"),
    BEYOND_SPAN("beyond-observed-span"),
    /** A grade or a fact. */
    NOT_A_NUMBER("not-a-number"),
    /** There is no result to go on from, or another reason than the number stands in the way. */
    UNDETERMINED("undetermined");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }
  }

  /**
   * Projects a series.
   *
   * @param readings since surgery, in order of time
   * @param bound in the unit of the series
   * @param upward true if more is towards the bound
   * @param level of the intervals, 0.95 for 95 %
   * @param halfWidth z·SEM of one reading near the bound, in the unit of the series; 0 if unknown
   */
  static Projection of(
      List<Reading> readings, double bound, boolean upward, double level, double halfWidth) {
    Refused refused = beforehand(readings);
    if (refused != null) {
      return refused;
    }
    Line line = Line.through(readings);
    double noise = Math.max(line.t(level) * line.residual(), halfWidth);
    return along(line, bound, upward, noise);
  }

  private static @Nullable Refused beforehand(List<Reading> readings) {
    if (readings.size() < FEWEST) {
      return new Refused(
          Reason.TOO_FEW_READINGS,
          readings.size() + " of the " + FEWEST + " tests that a projection needs");
    }
    return Line.fits(readings)
        ? null
        : new Refused(Reason.NO_SPAN, "all tests were done on the same day");
  }

  private static Projection along(Line line, double bound, boolean upward, double noise) {
    if (upward ? line.slope() <= 0 : line.slope() >= 0) {
      return new Refused(
          Reason.NO_IMPROVEMENT,
          "the fitted line does not move towards the cut-off: " + perWeek(line.slope()));
    }
    Interval slope = Interval.around(line.slope(), noise / Math.sqrt(line.spread()));
    if (slope.holds(0)) {
      return new Refused(
          Reason.SLOPE_UNCERTAIN,
          "there may be no change at all: "
              + perWeek(line.slope())
              + ", interval "
              + Quantity.text(slope.low())
              + " to "
              + Quantity.text(slope.high()));
    }
    double reached = (bound - line.intercept()) / line.slope();
    double limit = line.first() + REACH * line.span();
    if (reached > limit) {
      return new Refused(
          Reason.BEYOND_SPAN,
          "the line would reach the cut-off in week "
              + Quantity.text(reached)
              + "; tests from week "
              + Quantity.text(line.first())
              + " to "
              + Quantity.text(line.last())
              + " carry it only to week "
              + Quantity.text(limit));
    }
    if (reached <= line.last()) {
      return new Refused(
          Reason.LINE_PAST_BOUND,
          "the fitted line passed the cut-off in week "
              + Quantity.text(reached)
              + "; the newest test lies "
              + (upward ? "short of" : "over")
              + " it, within the scatter");
    }
    return new Reached(
        reached,
        crossing(line, bound, noise, 1.0 / line.readings()),
        crossing(line, bound, noise, 1 + 1.0 / line.readings()),
        limit);
  }

  private static Interval crossing(Line line, double bound, double noise, double atMean) {
    double above = bound - line.at(line.meanWeeks());
    double a = line.slope() * line.slope() - noise * noise / line.spread();
    double b = line.slope() * above;
    double c = above * above - noise * noise * atMean;
    double root = Math.sqrt(Math.max(0, b * b - a * c));
    return new Interval(line.meanWeeks() + (b - root) / a, line.meanWeeks() + (b + root) / a);
  }

  private static String perWeek(double slope) {
    return Quantity.text(slope) + " per week";
  }
}

package evenside.trend;

import evenside.measure.Aspect;
import evenside.measure.MeasurementError;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What can be said of one number over time.
 *
 * @param aspect which number of the measure
 * @param unit of the number and its changes
 * @param readings since surgery, in order of time; at least one
 * @param error published error of the test, or null
 * @param sinceLast change since the reading before the newest, or null
 * @param sinceFirst change since the first reading, or null where that is the one before
 * @param line fitted line, or null
 * @param slope change per week with known error, or null
 */
public record Trend(
    Aspect aspect,
    String unit,
    List<Reading> readings,
    @Nullable MeasurementError error,
    @Nullable Step sinceLast,
    @Nullable Step sinceFirst,
    @Nullable Line line,
    @Nullable Slope slope) {
  public Trend {
    readings = List.copyOf(readings);
  }

  /**
   * From one reading to the newest.
   *
   * @param from the earlier reading
   * @param to the newest
   * @param change against the error of the test; null where none is published that we know
   */
  public record Step(Reading from, Reading to, @Nullable Change change) {}

  /** The trend of one number of a series; empty if it was not read since surgery. */
  public static Optional<Trend> of(
      Series series, Aspect aspect, String unit, @Nullable MeasurementError error) {
    List<Reading> readings = series.readings(aspect);
    if (readings.isEmpty()) {
      return Optional.empty();
    }
    int newest = readings.size() - 1;
    boolean fitted = !series.graded() && Line.fits(readings);
    return Optional.of(
        new Trend(
            aspect,
            unit,
            readings,
            error,
            newest > 0 ? step(readings, newest - 1, error) : null,
            newest > 1 ? step(readings, 0, error) : null,
            fitted ? Line.through(readings) : null,
            fitted && error != null
                ? Slope.knowing(error.semAt(mean(readings)), error.z(), readings)
                : null));
  }

  private static Step step(List<Reading> readings, int from, @Nullable MeasurementError error) {
    Reading earlier = readings.get(from);
    Reading newest = readings.get(readings.size() - 1);
    return new Step(
        earlier,
        newest,
        error == null ? null : Change.between(earlier.value(), newest.value(), error));
  }

  private static double mean(List<Reading> readings) {
    return readings.stream().mapToDouble(Reading::value).average().orElseThrow();
  }
}

package evenside.trend;

import evenside.measure.Aspect;
import evenside.measure.Measure;
import evenside.measure.Protocol;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * One measure over time, tested in one way: the operated leg, the other leg and what was derived
 * from them. Numbers of different ways never meet in one series.
 *
 * @param measure entry of the catalogue
 * @param protocol how it was tested
 * @param aggregation how trials became the scores
 * @param tests in order of time
 * @param earlierNotShown true if there are older tests than these
 */
public record Series(
    Measure measure,
    Protocol protocol,
    String aggregation,
    List<Test> tests,
    boolean earlierNotShown) {
  /** Unit of a grade held as its place in the order of grades. */
  public static final String RANK = "{grade}";

  public Series {
    tests = List.copyOf(tests);
  }

  /**
   * One battery's numbers.
   *
   * @param batteryId the battery
   * @param performedOn its day on the clinic's calendar
   * @param weeks weeks since surgery, days divided by seven; not above 0 for a test before it
   * @param numbers by aspect, each in its own unit
   */
  public record Test(
      String batteryId, LocalDate performedOn, double weeks, Map<Aspect, Double> numbers) {
    public Test {
      numbers = numbers.isEmpty() ? Map.of() : Map.copyOf(new EnumMap<>(numbers));
    }
  }

  /** The readings of one number since surgery, in order of time. */
  public List<Reading> readings(Aspect aspect) {
    return tests.stream()
        .filter(test -> test.weeks() > 0 && test.numbers().containsKey(aspect))
        .map(test -> new Reading(test.weeks(), test.numbers().get(aspect)))
        .toList();
  }

  /** True if its numbers are ranks of grades: ordered, and nothing to fit a line to. */
  public boolean graded() {
    return measure.family().equals("effusion");
  }
}

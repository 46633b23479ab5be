package evenside.training;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One hold exercise.
 *
 * @param exercise code in the catalogue
 * @param side the side that worked
 * @param planned what was planned, or null
 * @param holdSeconds time of each hold in order, each time alike
 * @param times how often it was done
 * @param formKept whether every hold was in good form, or null
 */
public record CoreHold(
    String exercise,
    Limb side,
    @Nullable Plan planned,
    List<Double> holdSeconds,
    int times,
    @Nullable Boolean formKept) {
  public CoreHold {
    holdSeconds = List.copyOf(holdSeconds);
  }

  /**
   * What was planned.
   *
   * @param holds how many each time
   * @param seconds how long each
   * @param timesPerDay how often a day
   * @param days the entry covers
   */
  public record Plan(int holds, double seconds, int timesPerDay, int days) {}

  /** True if as many holds as planned reached their time; null without a plan. */
  public @Nullable Boolean allReached() {
    if (planned == null) {
      return null;
    }
    long reached = holdSeconds.stream().filter(s -> s >= planned.seconds()).count();
    return reached >= planned.holds();
  }
}

package evenside.training;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One strength exercise with one leg or both.
 *
 * @param exercise code in the catalogue
 * @param side the leg
 * @param progression the planned level of a progression, or null
 * @param planned what was planned, or null
 * @param completed what was done
 */
public record Strength(
    String exercise,
    Limb side,
    @Nullable PlannedLevel progression,
    @Nullable Plan planned,
    Done completed) {

  /**
   * What was planned.
   *
   * @param sets each time
   * @param repetitions of each set, or the lower end of the range
   * @param repetitionsMost upper end of the range, or null
   * @param loadKg or null
   * @param timesPerDay how often a day
   * @param days the entry covers
   */
  public record Plan(
      int sets,
      int repetitions,
      @Nullable Integer repetitionsMost,
      @Nullable Double loadKg,
      int timesPerDay,
      int days) {

    /** The number to be beaten before the load goes up: the upper end where there is a range. */
    public int target() {
      return repetitionsMost == null ? repetitions : repetitionsMost;
    }

    /** All repetitions, at the lower end. */
    public long total() {
      return (long) sets * repetitions * timesPerDay * days;
    }
  }

  /**
   * What was done.
   *
   * @param repetitions of each set in order, each time alike
   * @param loadKg or null
   * @param times how often it was done
   * @param toFailure whether the last set went to failure, or null
   */
  public record Done(
      List<Integer> repetitions, @Nullable Double loadKg, int times, @Nullable Boolean toFailure) {
    public Done {
      repetitions = List.copyOf(repetitions);
    }

    /** All repetitions. */
    public long total() {
      return repetitions.stream().mapToLong(Integer::longValue).sum() * times;
    }

    /** Repetitions of the last set. */
    public int last() {
      return repetitions.get(repetitions.size() - 1);
    }
  }
}

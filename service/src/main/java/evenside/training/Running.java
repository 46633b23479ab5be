package evenside.training;

import org.jspecify.annotations.Nullable;

/**
 * One run.
 *
 * @param progression the planned level of a progression, or null for a free run
 * @param surface code of what was run on
 * @param path {@code straight}, {@code curves}, {@code cutting}, or null
 * @param braceWorn whether a brace was worn, or null
 * @param planned what was planned, or null
 * @param completed what was done
 */
public record Running(
    @Nullable PlannedLevel progression,
    String surface,
    @Nullable String path,
    @Nullable Boolean braceWorn,
    @Nullable Dose planned,
    Dose completed) {

  /**
   * Totals of one run; absent members are not known.
   *
   * @param walkMetres distance walked
   * @param runMetres distance run
   * @param walkMinutes time walked
   * @param runMinutes time run
   */
  public record Dose(
      @Nullable Double walkMetres,
      @Nullable Double runMetres,
      @Nullable Double walkMinutes,
      @Nullable Double runMinutes) {

    /** Metres walked and run, or null if neither is known. */
    public @Nullable Double metres() {
      return sum(walkMetres, runMetres);
    }

    /** Minutes walked and run, or null if neither is known. */
    public @Nullable Double minutes() {
      return sum(walkMinutes, runMinutes);
    }

    private static @Nullable Double sum(@Nullable Double a, @Nullable Double b) {
      if (a == null || b == null) {
        return a == null ? b : a;
      }
      return a + b;
    }
  }
}

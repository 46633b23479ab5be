package evenside.progression;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * How often a progression may be done: days between, sessions and steps up in any seven days.
 *
 * <p>Shape: the window is rolling and includes the planned day; a step up is a day on which the
 * level was higher than the time before.
 *
 * <p>Source: Ann Jt 2018;3:40, Table 4; the rolling reading is our own.
 */
public final class Frequency {
  private static final int WINDOW = 7;

  private final Progression set;
  private final List<Step> steps;
  private final Set<LocalDate> days = new TreeSet<>();
  private final Set<LocalDate> ups = new TreeSet<>();

  /**
   * Looks at the sessions so far.
   *
   * @param steps sessions of one piece of work in order of time, at least one
   */
  Frequency(Progression set, List<Step> steps) {
    this.set = set;
    this.steps = List.copyOf(steps);
    int before = Integer.MAX_VALUE;
    for (Step step : steps) {
      days.add(step.day());
      if (step.item().level() > before) {
        ups.add(step.day());
      }
      before = step.item().level();
    }
  }

  private Step last() {
    return steps.get(steps.size() - 1);
  }

  /** Days by which a day comes too early. */
  long daysTooEarly(LocalDate day) {
    long gap = ChronoUnit.DAYS.between(last().day(), day);
    return Math.max(0, set.daysBetween(last().item().level()) - gap);
  }

  /** Sessions in the seven days up to a day, with one on that day, above the most allowed. */
  int sessionsTooMany(LocalDate day) {
    Integer most = set.limits().sessionsIn7Days();
    return most == null ? 0 : Math.max(0, within(days, day) - most);
  }

  /** Steps up in the seven days up to a day, with one on that day, above the most allowed. */
  int levelUpsTooMany(LocalDate day) {
    Integer most = set.limits().levelUpsIn7Days();
    return most == null ? 0 : Math.max(0, within(ups, day) - most);
  }

  private static int within(Set<LocalDate> dates, LocalDate day) {
    LocalDate start = day.minusDays(WINDOW - 1L);
    return (int) dates.stream().filter(d -> !d.isBefore(start) && d.isBefore(day)).count() + 1;
  }

  /**
   * The first day that keeps all limits.
   *
   * @param notBefore the earliest day that rest allows
   * @param up true for a step up
   */
  LocalDate earliest(LocalDate notBefore, boolean up) {
    LocalDate day = notBefore;
    while (daysTooEarly(day) > 0 || sessionsTooMany(day) > 0 || (up && levelUpsTooMany(day) > 0)) {
      day = day.plusDays(1);
    }
    return day;
  }

  /**
   * The fewest days in which a progression leads from one level to a higher one, whatever is not
   * recorded: less than that leaves a step out for certain.
   */
  public static long fewestDays(Progression set, int from, int to) {
    LocalDate start = LocalDate.EPOCH;
    LocalDate day = start;
    Set<LocalDate> ups = new TreeSet<>();
    Integer most = set.limits().levelUpsIn7Days();
    for (int level = from; level < to; level++) {
      // Of the lower level one session is known at least; the others may lie before it.
      int sessions = level == from ? 1 : set.level(level).map(Level::sessions).orElse(1);
      day = day.plusDays((long) set.daysBetween(level) * sessions);
      while (most != null && within(ups, day) > most) {
        day = day.plusDays(1);
      }
      ups.add(day);
    }
    return ChronoUnit.DAYS.between(start, day);
  }
}

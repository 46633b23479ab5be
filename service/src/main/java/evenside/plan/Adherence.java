package evenside.plan;

import evenside.training.Entry;
import evenside.training.Session;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * What was trained of what was planned. A description: it judges nobody, and doing more than
 * planned is shown as it is.
 *
 * <p>Shape: planned = times per week × days / 7; completed = how often the exercise was recorded in
 * that time, a leg each counting once together.
 *
 * <p>Unit: times.
 *
 * <p>Source: common practice, no source.
 *
 * @param from first day looked at
 * @param to last day looked at
 * @param items one per item of the plan
 * @param unplanned exercises that were done and are not in the plan
 * @param sessions training sessions looked at
 */
public record Adherence(
    LocalDate from, LocalDate to, List<Item> items, Set<String> unplanned, int sessions) {
  /** What runs are counted under. */
  public static final String RUNNING = "running";

  private static final double DAYS = 7;

  public Adherence {
    items = List.copyOf(items);
    unplanned = java.util.Collections.unmodifiableSet(new TreeSet<>(unplanned));
  }

  /**
   * An item of a plan.
   *
   * @param exercise code
   * @param running true if every run counts as this exercise
   * @param timesPerWeek how often a week
   */
  public record Planned(String exercise, boolean running, int timesPerWeek) {}

  /**
   * An item and what was done of it.
   *
   * @param planned the item
   * @param times planned times over all days
   * @param completed times completed
   * @param weeks the same by week from the first day on; the last may be short
   */
  public record Item(Planned planned, double times, int completed, List<Week> weeks) {
    public Item {
      weeks = List.copyOf(weeks);
    }
  }

  /**
   * One week of an item.
   *
   * @param from its first day
   * @param days how many of its days are looked at
   * @param completed times completed
   */
  public record Week(LocalDate from, int days, int completed) {}

  /**
   * Holds sessions against a plan.
   *
   * @param to last day, not before the day before {@code from}
   */
  public static Adherence of(
      List<Planned> plan, LocalDate from, LocalDate to, List<Session> sessions) {
    List<Session> within =
        sessions.stream()
            .filter(session -> session.training().isPresent())
            .filter(session -> !session.performedOn().isBefore(from))
            .filter(session -> !session.performedOn().isAfter(to))
            .toList();
    Set<String> unplanned = new TreeSet<>();
    within.forEach(session -> unplanned.addAll(done(session).keySet()));
    for (Planned planned : plan) {
      unplanned.remove(key(planned));
    }
    return new Adherence(
        from,
        to,
        plan.stream().map(planned -> item(planned, from, to, within)).toList(),
        unplanned,
        within.size());
  }

  private static Item item(Planned planned, LocalDate from, LocalDate to, List<Session> sessions) {
    List<Week> weeks = new ArrayList<>();
    for (LocalDate first = from; !first.isAfter(to); first = first.plusWeeks(1)) {
      LocalDate last = first.plusDays(6).isAfter(to) ? to : first.plusDays(6);
      weeks.add(week(planned, first, last, sessions));
    }
    int days = weeks.stream().mapToInt(Week::days).sum();
    int completed = weeks.stream().mapToInt(Week::completed).sum();
    return new Item(planned, planned.timesPerWeek() * days / DAYS, completed, weeks);
  }

  private static Week week(
      Planned planned, LocalDate first, LocalDate last, List<Session> sessions) {
    int completed =
        sessions.stream()
            .filter(session -> !session.performedOn().isBefore(first))
            .filter(session -> !session.performedOn().isAfter(last))
            .mapToInt(session -> done(session).getOrDefault(key(planned), 0))
            .sum();
    return new Week(first, (int) ChronoUnit.DAYS.between(first, last) + 1, completed);
  }

  private static String key(Planned planned) {
    return planned.running() ? RUNNING : planned.exercise();
  }

  /** How often each exercise was done in one entry. */
  private static Map<String, Integer> done(Session session) {
    Map<String, Integer> done = new LinkedHashMap<>();
    Entry.Training training = session.training().orElseThrow();
    training
        .strength()
        .forEach(one -> done.merge(one.exercise(), one.completed().times(), Math::max));
    training.core().forEach(one -> done.merge(one.exercise(), one.times(), Math::max));
    training.drills().forEach(one -> done.put(one.drill(), 1));
    if (!training.running().isEmpty()) {
      done.put(RUNNING, 1);
    }
    return done;
  }
}

package evenside.load;

import evenside.training.Entry;
import evenside.training.Session;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Load day by day.
 *
 * <p>Shape: effort 0 to 10 × minutes, sessions of a day summed. A day is known if each of its
 * sessions states both, or if it was stated as rest without any session; every other day is not
 * known.
 *
 * <p>Source: Foster et al. (2001), J Strength Cond Res 15:109.
 */
public final class DailyLoads {
  private final Map<LocalDate, Optional<Double>> days = new HashMap<>();

  private DailyLoads() {}

  /** The loads of some trainings and rest days. */
  public static DailyLoads of(Collection<Session> trainings, Set<LocalDate> restDays) {
    DailyLoads loads = new DailyLoads();
    for (Session session : trainings) {
      Optional<Double> load = session.training().flatMap(DailyLoads::load);
      loads.days.merge(session.performedOn(), load, DailyLoads::sum);
    }
    restDays.forEach(day -> loads.days.putIfAbsent(day, Optional.of(0.0)));
    return loads;
  }

  /** Load of one session; empty without effort or minutes. */
  public static Optional<Double> load(Entry.Training training) {
    Double effort = training.effort();
    Double minutes = training.minutes();
    return effort == null || minutes == null ? Optional.empty() : Optional.of(effort * minutes);
  }

  private static Optional<Double> sum(Optional<Double> a, Optional<Double> b) {
    return a.isPresent() && b.isPresent() ? Optional.of(a.get() + b.get()) : Optional.empty();
  }

  /** The loads of some days in order, up to and with the last. */
  public List<Optional<Double>> upTo(LocalDate last, int count) {
    List<Optional<Double>> loads = new ArrayList<>();
    for (int i = count - 1; i >= 0; i--) {
      loads.add(days.getOrDefault(last.minusDays(i), Optional.empty()));
    }
    return loads;
  }
}

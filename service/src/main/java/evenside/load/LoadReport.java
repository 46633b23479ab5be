package evenside.load;

import evenside.training.Contacts;
import evenside.training.Entry;
import evenside.training.Running;
import evenside.training.Session;
import evenside.training.Strength;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What was trained up to a day.
 *
 * @param weekEnding last of the seven days
 * @param week load, monotony, strain
 * @param change against the week before
 * @param knownDays of the seven
 * @param sessions in the seven days
 * @param longestRun longest single run in the 30 days up to the day, in m
 * @param lastRun the newest run against the longest of the 30 days before it
 * @param band its band, or null
 * @param contacts foot contacts in the seven days
 * @param tonnage load moved in the seven days
 * @param adherence repetitions done of those planned in the seven days
 * @param acuteChronic descriptive only; empty unless it was asked for
 * @param estimates one-repetition estimates of the sets to failure in the seven days
 */
public record LoadReport(
    LocalDate weekEnding,
    TrainingWeek week,
    Figure change,
    int knownDays,
    int sessions,
    Figure longestRun,
    Figure lastRun,
    @Nullable SingleRun band,
    Contacts contacts,
    Figure tonnage,
    Figure adherence,
    Map<AcuteChronic, AcuteChronic.Result> acuteChronic,
    List<Estimate> estimates) {
  private static final int WEEK = 7;
  private static final int MONTH = 30;

  public LoadReport {
    estimates = List.copyOf(estimates);
  }

  /**
   * A one-repetition estimate.
   *
   * @param session the session
   * @param exercise code of the exercise
   * @param side the leg
   * @param formula the formula
   * @param estimate in kg
   */
  public record Estimate(
      String session, String exercise, String side, OneRepMax formula, Figure estimate) {}

  /** What is asked for. */
  public record Question(LocalDate weekEnding, SdMethod sdMethod, boolean acuteChronic) {}

  /** The report. */
  public static LoadReport of(
      Collection<Session> trainings, Set<LocalDate> restDays, Question question) {
    LocalDate end = question.weekEnding();
    DailyLoads loads = DailyLoads.of(trainings, restDays);
    List<Optional<Double>> days = loads.upTo(end, WEEK);
    TrainingWeek week = TrainingWeek.of(days, question.sdMethod());
    TrainingWeek before =
        TrainingWeek.of(loads.upTo(end.minusDays(WEEK), WEEK), question.sdMethod());
    List<Session> recent = within(trainings, end.minusDays(WEEK), end);
    List<Entry.Training> work = recent.stream().flatMap(s -> s.training().stream()).toList();
    List<Strength> strength = work.stream().flatMap(t -> t.strength().stream()).toList();
    Figure lastRun = lastRun(trainings, end);
    return new LoadReport(
        end,
        week,
        week.changeFrom(before),
        (int) days.stream().filter(Optional::isPresent).count(),
        recent.size(),
        longest(within(trainings, end.minusDays(MONTH), end)),
        lastRun,
        lastRun.value() == null ? null : SingleRun.band(lastRun.value()),
        Volume.contacts(work),
        Volume.tonnage(strength),
        Volume.adherence(strength),
        question.acuteChronic() ? acuteChronic(loads, end) : Map.of(),
        estimates(recent));
  }

  private static Map<AcuteChronic, AcuteChronic.Result> acuteChronic(
      DailyLoads loads, LocalDate end) {
    Map<AcuteChronic, AcuteChronic.Result> results = new EnumMap<>(AcuteChronic.class);
    for (AcuteChronic form : AcuteChronic.values()) {
      results.put(form, form.of(loads.upTo(end, AcuteChronic.CHRONIC)));
    }
    return results;
  }

  /** Sessions after one day, up to and with another. */
  private static List<Session> within(
      Collection<Session> trainings, LocalDate after, LocalDate end) {
    return trainings.stream()
        .filter(s -> s.performedOn().isAfter(after) && !s.performedOn().isAfter(end))
        .toList();
  }

  private static Figure longest(List<Session> sessions) {
    return sessions.stream()
        .map(LoadReport::metresRun)
        .filter(Objects::nonNull)
        .max(Double::compare)
        .map(metres -> Figure.of(metres, "m"))
        .orElse(Figure.none("m", Figure.NOT_RECORDED));
  }

  private static Figure lastRun(Collection<Session> trainings, LocalDate end) {
    Session last = null;
    for (Session session : trainings) {
      boolean newer = last == null || session.performedAt().isAfter(last.performedAt());
      if (newer && !session.performedOn().isAfter(end) && metresRun(session) != null) {
        last = session;
      }
    }
    Double metres = last == null ? null : metresRun(last);
    if (last == null || metres == null) {
      return Figure.none("%", Figure.NOT_RECORDED);
    }
    LocalDate day = last.performedOn();
    Figure before = longest(within(trainings, day.minusDays(MONTH + 1L), day.minusDays(1)));
    return before.value() == null
        ? Figure.none("%", Figure.NOT_RECORDED)
        : SingleRun.change(metres, before.value());
  }

  /** Metres run in one session; null if no run states a distance. */
  private static @Nullable Double metresRun(Session session) {
    List<Double> metres =
        session.training().stream()
            .flatMap(training -> training.running().stream())
            .map(Running::completed)
            .map(Running.Dose::runMetres)
            .filter(Objects::nonNull)
            .toList();
    return metres.isEmpty() ? null : metres.stream().mapToDouble(d -> d).sum();
  }

  private static List<Estimate> estimates(List<Session> sessions) {
    List<Estimate> estimates = new ArrayList<>();
    for (Session session : sessions) {
      session.training().stream()
          .flatMap(training -> training.strength().stream())
          .filter(strength -> Boolean.TRUE.equals(strength.completed().toFailure()))
          .forEach(strength -> estimates.addAll(estimates(session, strength)));
    }
    return estimates;
  }

  private static List<Estimate> estimates(Session session, Strength strength) {
    Double load = strength.completed().loadKg();
    if (load == null || load == 0) {
      return List.of();
    }
    List<Estimate> estimates = new ArrayList<>();
    for (OneRepMax formula : OneRepMax.values()) {
      estimates.add(
          new Estimate(
              session.id(),
              strength.exercise(),
              strength.side().code(),
              formula,
              formula.of(load, strength.completed().last())));
    }
    return estimates;
  }
}

package evenside.progression;

import evenside.training.Entry;
import evenside.training.Session;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * The training record in order of time. What it holds depends on the set of entries alone: an entry
 * that completes another is joined to it whichever of them came first.
 */
public final class History {
  /** Two entries of one instant are told apart by what the sender calls them. */
  private static final Comparator<Session> BY_TIME =
      Comparator.comparing((Session session) -> session.performedAt().toInstant())
          .thenComparing(session -> session.recordId().orElse(""))
          .thenComparing(Session::id);

  private final List<Bout> bouts;
  private final List<Session> clearances;
  private final Set<LocalDate> restDays = new TreeSet<>();
  private final int size;

  private History(List<Session> ordered) {
    this.size = ordered.size();
    this.bouts = bouts(ordered);
    this.clearances =
        ordered.stream().filter(session -> session.entry() instanceof Entry.Clearance).toList();
    for (Session session : ordered) {
      if (session.entry() instanceof Entry.RestDays rest) {
        restDays.addAll(rest.days());
      }
    }
  }

  /**
   * The entries up to a day.
   *
   * @param sessions in any order
   * @param asOf entries after this day do not count
   */
  public static History of(List<Session> sessions, LocalDate asOf) {
    return new History(
        sessions.stream()
            .filter(session -> !session.performedOn().isAfter(asOf))
            .sorted(BY_TIME)
            .toList());
  }

  private static List<Bout> bouts(List<Session> ordered) {
    Map<Session, List<Session>> bouts = new LinkedHashMap<>();
    List<Session> checks = new ArrayList<>();
    for (Session session : ordered) {
      if (session.entry() instanceof Entry.Training) {
        bouts.put(session, new ArrayList<>());
      } else if (session.entry() instanceof Entry.KneeCheck) {
        checks.add(session);
      }
    }
    for (Session check : checks) {
      completed(check, bouts.keySet())
          .ifPresentOrElse(
              training ->
                  bouts.computeIfPresent(
                      training,
                      (known, completing) -> {
                        completing.add(check);
                        return completing;
                      }),
              () -> bouts.put(check, new ArrayList<>()));
    }
    return bouts.entrySet().stream()
        .map(bout -> new Bout(bout.getKey(), bout.getValue()))
        .sorted(Comparator.comparing(Bout::session, BY_TIME))
        .toList();
  }

  private static Optional<Session> completed(Session check, Set<Session> known) {
    return ((Entry.KneeCheck) check.entry())
        .completes()
        .flatMap(
            reference ->
                known.stream()
                    .filter(session -> session.training().isPresent())
                    .filter(session -> session.isCalled(reference))
                    .findFirst());
  }

  List<Bout> bouts() {
    return bouts;
  }

  /** The clearances that name an entry of a bout, in order of time. */
  List<Session> clearancesOf(Bout bout) {
    return clearances.stream()
        .filter(
            clearance ->
                ((Entry.Clearance) clearance.entry())
                    .clears().stream()
                        .anyMatch(
                            name -> bout.entries().stream().anyMatch(one -> one.isCalled(name))))
        .toList();
  }

  /** Trainings in order of time. */
  public List<Session> trainings() {
    return bouts.stream().filter(b -> b.training().isPresent()).map(Bout::session).toList();
  }

  /** Days stated as rest; every other day without training is not known. */
  public Set<LocalDate> restDays() {
    return restDays;
  }

  /** The newest day with a training or a look at the knee. */
  public Optional<LocalDate> newestDay() {
    return bouts.stream().map(Bout::day).max(Comparator.naturalOrder());
  }

  public int size() {
    return size;
  }
}

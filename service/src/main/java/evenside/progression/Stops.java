package evenside.progression;

import evenside.training.RedFlags;
import evenside.training.Session;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.function.Predicate;

/**
 * Which stops of a bout stand. A clearance ends what was known when it was made: the answers of the
 * entries before it, and the stops that their response called for. What an entry after it says
 * stands again.
 */
final class Stops {
  private final Judge judge;
  private final History history;
  private final IntFunction<Inputs> shown;

  /**
   * The stops of a history.
   *
   * @param shown what the knee showed with a bout, by all answers
   */
  Stops(Judge judge, History history, IntFunction<Inputs> shown) {
    this.judge = judge;
    this.history = history;
    this.shown = shown;
  }

  /**
   * The stops of one bout.
   *
   * @param standing those no clinician has cleared
   * @param cleared true if any was cleared
   */
  record Result(List<Hit> standing, boolean cleared) {}

  Result of(int index) {
    Bout bout = history.bouts().get(index);
    List<Hit> called = judge.stops(bout, shown.apply(index));
    if (called.isEmpty()) {
      return new Result(called, false);
    }
    Optional<OffsetDateTime> clearedAt = clearedAt(bout);
    if (clearedAt.isEmpty()) {
      return new Result(called, false);
    }
    Predicate<Session> later = one -> one.performedAt().isAfter(clearedAt.get());
    List<String> settled =
        called(index, bout.without(later), none -> false).stream().map(Stops::name).toList();
    List<Hit> standing =
        called(index, bout, later).stream().filter(hit -> !settled.contains(name(hit))).toList();
    return new Result(standing, standing.size() < called.size());
  }

  private List<Hit> called(int index, Bout bout, Predicate<Session> answersOf) {
    RedFlags flags = bout.redFlags(answersOf);
    List<Bout> before = history.bouts().subList(0, index);
    return judge.stops(bout, new KneeInputs(judge.inputs().redFlags(), before, bout).with(flags));
  }

  private static String name(Hit hit) {
    return hit.progression().name() + " " + hit.rule().id();
  }

  /** The newest clearance that came after the bout began. */
  private Optional<OffsetDateTime> clearedAt(Bout bout) {
    List<OffsetDateTime> times = new ArrayList<>();
    for (Session clearance : history.clearancesOf(bout)) {
      if (!clearance.performedAt().isBefore(bout.session().performedAt())) {
        times.add(clearance.performedAt());
      }
    }
    return times.stream().max(OffsetDateTime.timeLineOrder());
  }
}

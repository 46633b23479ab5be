package evenside.progression;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The pain that is usual for a knee.
 *
 * <p>Shape: median of the next-morning pains of the seven days before; with fewer than three of
 * them only that it lies between 0 and 10.
 *
 * <p>Source: own proposal for reading "pain must not rise"; the model is Thomeé (1997), from
 * memory.
 *
 * @param known the usual pain, 0 to 10
 * @param sessions entries it comes from
 */
record UsualPain(Known.Range known, List<String> sessions) {
  private static final int DAYS = 7;
  private static final int FEWEST = 3;
  private static final Known.Range UNKNOWN = new Known.Range(0, 10);

  static UsualPain before(LocalDate day, List<Bout> earlier) {
    List<Integer> pains = new ArrayList<>();
    List<String> sessions = new ArrayList<>();
    for (Bout bout : earlier) {
      Integer morning = bout.response().pain().nextMorning();
      if (morning != null
          && !bout.day().isBefore(day.minusDays(DAYS))
          && bout.day().isBefore(day)) {
        pains.add(morning);
        sessions.add(bout.session().id());
      }
    }
    if (pains.size() < FEWEST) {
      return new UsualPain(UNKNOWN, sessions);
    }
    double median = median(pains);
    return new UsualPain(new Known.Range(median, median), sessions);
  }

  private static double median(List<Integer> numbers) {
    List<Integer> sorted = numbers.stream().sorted().toList();
    int middle = sorted.size() / 2;
    return sorted.size() % 2 == 1
        ? sorted.get(middle)
        : (sorted.get(middle - 1) + sorted.get(middle)) / 2.0;
  }

  /**
   * How many weeks in a row, up to this bout, the mean of the worst pains rose; null with less than
   * two weeks of them.
   */
  static @Nullable Integer weeksRising(Bout bout, List<Bout> earlier) {
    Double last = meanOfWeek(bout, earlier, 0);
    Double before = meanOfWeek(bout, earlier, 1);
    if (last == null || before == null) {
      return null;
    }
    int weeks = 0;
    while (last != null && before != null && last > before) {
      weeks++;
      last = before;
      before = meanOfWeek(bout, earlier, weeks + 1);
    }
    return weeks;
  }

  private static @Nullable Double meanOfWeek(Bout bout, List<Bout> earlier, int weeksAgo) {
    LocalDate end = bout.day().minusDays((long) DAYS * weeksAgo);
    LocalDate start = end.minusDays(DAYS);
    var pains =
        Stream.concat(earlier.stream(), Stream.of(bout))
            .filter(one -> one.day().isAfter(start) && !one.day().isAfter(end))
            .map(one -> one.response().pain().worst())
            .filter(Objects::nonNull)
            .mapToInt(Integer::intValue)
            .summaryStatistics();
    return pains.getCount() == 0 ? null : pains.getAverage();
  }
}

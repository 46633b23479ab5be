package evenside.progression;

import evenside.signs.EffusionGrade;
import evenside.training.Response.Effusion;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The effusion that is usual for a knee before a bout.
 *
 * <p>Shape: the median of the last three grades before the bout; with fewer than three the grade
 * that the clinic states as usual, else the lowest of those there are, since a rise from it is
 * largest. A next morning's grade counts once that morning is over.
 *
 * <p>Source: own proposal for reading "increased effusion"; the grades are Sturgill (2009).
 *
 * @param grade the grade, or null if nothing is known
 * @param sessions entries it comes from
 */
record UsualEffusion(@Nullable EffusionGrade grade, List<String> sessions) {
  private static final int GRADES = 3;

  private record Graded(EffusionGrade grade, String session) {}

  static UsualEffusion before(Bout bout, List<Bout> earlier) {
    List<Graded> grades = new ArrayList<>();
    for (Bout one : earlier) {
      Effusion effusion = one.response().effusion();
      add(grades, effusion.before(), one);
      add(grades, effusion.after(), one);
      if (one.day().isBefore(bout.day())) {
        add(grades, effusion.nextMorning(), one);
      }
    }
    Effusion own = bout.response().effusion();
    add(grades, own.before(), bout);
    List<Graded> last = grades.subList(Math.max(0, grades.size() - GRADES), grades.size());
    List<EffusionGrade> sorted = last.stream().map(Graded::grade).sorted().toList();
    List<String> sessions = last.stream().map(Graded::session).distinct().toList();
    if (sorted.size() == GRADES) {
      return new UsualEffusion(sorted.get(1), sessions);
    }
    EffusionGrade stated = own.usual();
    if (stated != null) {
      return new UsualEffusion(stated, bout.ids());
    }
    return new UsualEffusion(sorted.isEmpty() ? null : sorted.get(0), sessions);
  }

  private static void add(List<Graded> grades, @Nullable EffusionGrade grade, Bout bout) {
    if (grade != null) {
      grades.add(new Graded(grade, bout.session().id()));
    }
  }

  /**
   * Where a bout stands in the published table of visits: 0 first check, 1 the visit after one with
   * 2+ or more, 2 those after, until trace or less, or 1+ once more, has let it go on.
   *
   * <p>Source: Int J Sports Phys Ther 2018;13(3):422–431, Table 5.
   */
  static int visitsSinceHold(List<Bout> earlier) {
    int state = 0;
    for (Bout one : earlier) {
      EffusionGrade now = one.response().effusion().now();
      if (now != null && one.training().isPresent()) {
        state = next(state, now);
      }
    }
    return state;
  }

  private static int next(int state, EffusionGrade now) {
    if (now.compareTo(EffusionGrade.TWO_PLUS) >= 0) {
      return state == 0 ? 1 : 2;
    }
    return state == 1 && now == EffusionGrade.ONE_PLUS ? 2 : 0;
  }
}

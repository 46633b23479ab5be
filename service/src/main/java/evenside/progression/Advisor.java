package evenside.progression;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Holds the training record against the rules. A pure function: the same set of entries, rules and
 * date give the same advice, in whatever order the entries came.
 */
public final class Advisor {
  /** Two steps back within these days ask for a clinician: own proposal. */
  private static final int REVIEW_DAYS = 14;

  private static final int REVIEW_STEPS_BACK = 2;

  private final Progressions progressions;

  public Advisor(Progressions progressions) {
    this.progressions = progressions;
  }

  /**
   * What is asked for.
   *
   * @param asOf the date
   * @param plannedOn the day of the next session, if there is a plan to be held against the limits
   * @param chosen {@code id/version} of sets to be counted beside those that always count
   */
  public record Question(LocalDate asOf, Optional<LocalDate> plannedOn, Set<String> chosen) {
    public Question {
      chosen = Set.copyOf(chosen);
    }

    public static Question on(LocalDate asOf) {
      return new Question(asOf, Optional.empty(), Set.of());
    }
  }

  /** The advice on a history. */
  public Advice advise(History history, Question question) {
    Course course = new Course(history, new Judge(progressions, question.chosen()));
    List<Hit> standing = standing(course);
    List<Advice.Work> work = new ArrayList<>();
    course
        .work()
        .values()
        .forEach(
            steps ->
                work.add(
                    new WorkAdvisor(course, steps, !standing.isEmpty())
                        .advise(question.plannedOn())));
    Outcome outcome =
        standing.isEmpty()
            ? Outcome.mostCautious(work.stream().map(Advice.Work::outcome).toList())
            : Outcome.STOP_AND_REFER;
    Set<Progression> sets = sets(course);
    return new Advice(
        question.asOf(),
        outcome,
        message(outcome, standing, work),
        redFlagsComplete(course),
        standing,
        work,
        unanswered(course, work),
        review(course, work),
        List.copyOf(sets),
        counted(course, sets),
        history.newestDay().orElse(null),
        history.size());
  }

  private static List<Hit> standing(Course course) {
    List<Hit> standing = new ArrayList<>();
    for (int i = 0; i < course.bouts().size(); i++) {
      standing.addAll(course.stops(i).standing());
    }
    return standing;
  }

  private static boolean redFlagsComplete(Course course) {
    int last = lastTraining(course);
    return last >= 0 && course.redFlagsComplete(last);
  }

  private static int lastTraining(Course course) {
    int last = course.bouts().size() - 1;
    while (last >= 0 && course.bouts().get(last).training().isEmpty()) {
      last--;
    }
    return last;
  }

  private static List<Unanswered> unanswered(Course course, List<Advice.Work> work) {
    Set<Unanswered> open = new LinkedHashSet<>();
    work.forEach(piece -> open.addAll(piece.unanswered()));
    int last = lastTraining(course);
    if (last >= 0) {
      for (String question : course.judge().inputs().redFlags()) {
        if (course.knee(last).value(question).equals(Known.NOTHING)) {
          open.add(course.judge().unanswered(question, course.bouts().get(last)));
        }
      }
    }
    return List.copyOf(open);
  }

  private static List<String> review(Course course, List<Advice.Work> work) {
    Set<String> reasons = new LinkedHashSet<>();
    List<Bout> bouts = course.bouts();
    if (!bouts.isEmpty()) {
      LocalDate start = bouts.get(bouts.size() - 1).day().minusDays(REVIEW_DAYS);
      int back = 0;
      for (int i = 0; i < bouts.size(); i++) {
        if (bouts.get(i).day().isAfter(start)
            && course.outcome(i).equals(Optional.of(Outcome.STEP_BACK))) {
          back++;
        }
      }
      if (back >= REVIEW_STEPS_BACK) {
        reasons.add(back + " steps back in " + REVIEW_DAYS + " days");
      }
    }
    work.stream()
        .flatMap(piece -> piece.reasons().stream())
        .filter(hit -> hit.counted() && hit.rule().review())
        .forEach(hit -> reasons.add(hit.text()));
    return List.copyOf(reasons);
  }

  private static Set<Progression> sets(Course course) {
    Set<Progression> sets = new LinkedHashSet<>(course.judge().kneeSets());
    for (List<Step> steps : course.work().values()) {
      Item last = steps.get(steps.size() - 1).item();
      course.judge().parts(last).forEach(part -> sets.add(part.set()));
    }
    return sets;
  }

  private static Set<String> counted(Course course, Set<Progression> sets) {
    Set<String> counted = new TreeSet<>();
    sets.stream().filter(course.judge()::counts).forEach(set -> counted.add(set.name()));
    for (List<Step> steps : course.work().values()) {
      Item last = steps.get(steps.size() - 1).item();
      course.judge().progression(last).ifPresent(named -> counted.add(named.name()));
    }
    return counted;
  }

  private static String message(Outcome outcome, List<Hit> standing, List<Advice.Work> work) {
    Stream<String> texts =
        standing.isEmpty()
            ? work.stream()
                .filter(piece -> piece.outcome() == outcome)
                .flatMap(piece -> piece.reasons().stream())
                .filter(hit -> hit.counted() && hit.outcome() == outcome)
                .map(Hit::text)
            : standing.stream().map(Hit::text);
    String message =
        texts.filter(Objects::nonNull).distinct().limit(4).collect(Collectors.joining(" "));
    if (!message.isEmpty()) {
      return message;
    }
    return work.isEmpty()
        ? "No training is recorded, so nothing can be said about the next one."
        : "Some answers that a step up depends on are missing: see what is unanswered.";
  }
}

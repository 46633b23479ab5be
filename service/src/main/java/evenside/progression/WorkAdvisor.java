package evenside.progression;

import evenside.progression.Advice.Next;
import evenside.progression.Advice.Work;
import evenside.quantity.Quantity;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Advice for one piece of work: the verdict on its last session and on the knee since then. */
final class WorkAdvisor {
  private static final Progression NONE =
      new Progression(
          "",
          "",
          "",
          "",
          "",
          java.util.Set.of(),
          Progression.Use.NAMED,
          Limits.NONE,
          List.of(),
          List.of(),
          List.of());

  private final Course course;
  private final List<Step> steps;
  private final Step last;
  private final @Nullable Progression progression;
  private final boolean stopped;

  WorkAdvisor(Course course, List<Step> steps, boolean stopped) {
    this.course = course;
    this.steps = steps;
    this.last = steps.get(steps.size() - 1);
    this.progression = course.judge().progression(last.item()).orElse(null);
    this.stopped = stopped;
  }

  Work advise(Optional<LocalDate> plannedOn) {
    Verdict verdict = course.verdict(steps, plannedOn.orElse(null)).and(course.since(last.index()));
    Outcome outcome = stopped ? Outcome.STOP_AND_REFER : verdict.outcome();
    int level = last.item().level();
    int back = back(verdict);
    boolean completed =
        outcome == Outcome.ADVANCE && progression != null && progression.lastLevel() == level;
    return new Work(
        last.item().key(),
        progression,
        last.bout().session().id(),
        last.day(),
        level,
        outcome,
        outcome == Outcome.STOP_AND_REFER ? null : next(verdict, outcome, level, back, completed),
        outcome == Outcome.STEP_BACK
            && progression != null
            && progression.hasLevels()
            && level - back < 1,
        completed && progression != null && progression.hasLevels(),
        verdict.hits(),
        verdict.unanswered());
  }

  /** Levels to go back: the most that any rule that counts asks for, at least one. */
  private static int back(Verdict verdict) {
    return verdict.counted().stream()
        .filter(hit -> hit.outcome() == Outcome.STEP_BACK)
        .mapToInt(hit -> Math.max(1, -hit.rule().levels()))
        .max()
        .orElse(1);
  }

  private Next next(Verdict verdict, Outcome outcome, int level, int back, boolean completed) {
    int nextLevel =
        switch (outcome) {
          case STEP_BACK -> Math.max(Math.min(1, level), level - back);
          case ADVANCE ->
              progression == null || !progression.hasLevels() || completed ? level : level + 1;
          case STOP_AND_REFER, REPEAT_AFTER_REST, HOLD, INSUFFICIENT_DATA -> level;
        };
    int restDays = restDays(verdict);
    LocalDate rested =
        verdict.counted().stream()
            .map(hit -> hit.day().plusDays(hit.rule().restDays() + 1L))
            .max(Comparator.naturalOrder())
            .orElse(last.day().plusDays(1));
    Progression limits = limits();
    LocalDate earliest = new Frequency(limits, steps).earliest(rested, nextLevel > level);
    return new Next(nextLevel, dose(verdict, outcome, nextLevel), earliest, restDays);
  }

  private static int restDays(Verdict verdict) {
    return verdict.counted().stream().mapToInt(hit -> hit.rule().restDays()).max().orElse(0);
  }

  /** The progression that limits frequency: the one named, else the one for its kind of work. */
  private Progression limits() {
    if (progression != null) {
      return progression;
    }
    return course.judge().parts(last.item()).stream()
        .filter(Judge.Part::counted)
        .map(Judge.Part::set)
        .filter(set -> !set.isAboutKnee())
        .findFirst()
        .orElse(NONE);
  }

  private String dose(Verdict verdict, Outcome outcome, int nextLevel) {
    Optional<Level> level = progression == null ? Optional.empty() : progression.level(nextLevel);
    if (level.isPresent()) {
      String onTrack = level.get().track();
      boolean track = onTrack != null && "track".equals(last.item().surface());
      return "level " + nextLevel + ": " + (track ? onTrack : level.get().title());
    }
    return verdict.counted().stream()
        .filter(hit -> hit.outcome() == outcome)
        .flatMap(hit -> Optional.ofNullable(hit.rule().change()).stream())
        .map(this::changed)
        .findFirst()
        .orElse(outcome == Outcome.ADVANCE ? "one small step up" : unchanged(outcome));
  }

  private static String unchanged(Outcome outcome) {
    return outcome == Outcome.STEP_BACK ? "less than last time" : "the same as last time";
  }

  private String changed(Rule.Change change) {
    String range =
        change.least() == change.most()
            ? signed(change.least(), change)
            : Quantity.text(change.least()) + " to " + signed(change.most(), change);
    Double load = last.item().loadKg();
    if (!change.of().equals("load") || load == null || load == 0) {
      return change.of() + ": " + range;
    }
    double least = load * (1 + change.least() / 100);
    double most = load * (1 + change.most() / 100);
    String kilograms =
        least == most
            ? Quantity.text(least)
            : Quantity.text(Math.min(least, most)) + " to " + Quantity.text(Math.max(least, most));
    return "load: " + range + ", " + kilograms + " kg";
  }

  private static String signed(double value, Rule.Change change) {
    String more = value < 0 ? " less" : " more";
    return new Quantity(Math.abs(value), change.unit()) + more;
  }
}

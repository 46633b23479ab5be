package evenside.progression;

import evenside.training.Drill;
import evenside.training.Entry;
import evenside.training.Response;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** What one session of a piece of work says, with those before it. */
final class CourseInputs {
  private final List<Bout> before;
  private final List<Step> steps;
  private final Step step;
  private final @Nullable Progression set;

  /**
   * Looks at the last of some steps.
   *
   * @param before all bouts before it
   * @param steps sessions of this piece of work up to this one, in order of time
   * @param set the progression, or null without one
   */
  CourseInputs(List<Bout> before, List<Step> steps, @Nullable Progression set) {
    this.before = before;
    this.steps = steps;
    this.step = steps.get(steps.size() - 1);
    this.set = set;
  }

  /**
   * Adds the inputs of the progression.
   *
   * @param plannedOn day of the next session, or null to leave frequency aside
   */
  Inputs addTo(Inputs knee, @Nullable LocalDate plannedOn) {
    Inputs inputs = knee.copy();
    Item item = step.item();
    inputs.number("completed-percent", item.percent());
    inputs.word("surface", item.surface());
    inputs.word("path", item.path());
    inputs.flag("brace-worn", item.braceWorn());
    inputs.number("contacts", item.contacts().total());
    inputs.number("single-leg-contacts", item.contacts().single());
    inputs.number("clean-both-leg-sessions", cleanBothLegSessions());
    inputs.number("contacts-rise", contactsRise());
    inputs.number("repetitions-over-target", overTarget());
    inputs.number("clean-holds-in-a-row", cleanHolds());
    level(inputs);
    frequency(inputs, plannedOn);
    return inputs;
  }

  private void level(Inputs inputs) {
    if (set == null || !set.hasLevels()) {
      return;
    }
    int number = step.item().level();
    inputs.number("level", number);
    set.level(number)
        .ifPresent(
            level -> {
              inputs.number("sessions-due-at-level", Math.max(0, level.sessions() - done(number)));
              inputs.number("effort-above-most", effortAbove(level));
            });
    int previous = steps.size() < 2 ? number : steps.get(steps.size() - 2).item().level();
    inputs.number("levels-skipped", Math.max(0, number - previous - 1));
  }

  private @Nullable Double effortAbove(Level level) {
    Double most = level.effortMost();
    Double effort = step.bout().training().map(Entry.Training::effort).orElse(null);
    if (most == null) {
      return 0.0;
    }
    return effort == null ? null : Math.max(0, effort - most);
  }

  /** Completed sessions at this level, in a row up to this one. */
  private int done(int level) {
    int done = 0;
    for (int i = steps.size() - 1; i >= 0 && steps.get(i).item().level() == level; i--) {
      Double percent = steps.get(i).item().percent();
      done += percent != null && percent >= 100 ? 1 : 0;
    }
    return done;
  }

  private void frequency(Inputs inputs, @Nullable LocalDate plannedOn) {
    if (set == null || plannedOn == null) {
      inputs.number("days-too-early", 0);
      inputs.number("sessions-too-many", 0);
      inputs.number("level-ups-too-many", 0);
      return;
    }
    Frequency frequency = new Frequency(set, steps);
    inputs.number("days-too-early", frequency.daysTooEarly(plannedOn));
    inputs.number("sessions-too-many", frequency.sessionsTooMany(plannedOn));
    inputs.number("level-ups-too-many", frequency.levelUpsTooMany(plannedOn));
  }

  private @Nullable Integer overTarget() {
    Integer over = step.item().overTarget();
    if (over == null) {
      return null;
    }
    Integer before = null;
    if (steps.size() > 1) {
      Item previous = steps.get(steps.size() - 2).item();
      boolean sameLoad = Objects.equals(previous.loadKg(), step.item().loadKg());
      before = sameLoad ? previous.overTarget() : null;
    }
    return Math.min(over, before == null ? 0 : before);
  }

  private @Nullable Integer cleanHolds() {
    if (step.item().cleanHolds() == null) {
      return null;
    }
    int clean = 0;
    for (int i = steps.size() - 1;
        i >= 0 && Boolean.TRUE.equals(steps.get(i).item().cleanHolds());
        i--) {
      clean++;
    }
    return clean;
  }

  private @Nullable Double contactsRise() {
    int previous = steps.size() < 2 ? 0 : steps.get(steps.size() - 2).item().contacts().total();
    int now = step.item().contacts().total();
    return previous == 0 ? null : 100.0 * (now - previous) / previous;
  }

  private long cleanBothLegSessions() {
    long sessions = 0;
    for (Bout bout : before) {
      if (bothLegs(bout) && isClean(bout.response())) {
        sessions++;
      }
    }
    return sessions;
  }

  private static boolean bothLegs(Bout bout) {
    if (bout.session().entry() instanceof Entry.Training training) {
      for (Drill drill : training.drills()) {
        if (drill.completed().both() > 0) {
          return true;
        }
      }
    }
    return false;
  }

  private static boolean isClean(Response response) {
    Integer worst = response.pain().worst();
    boolean sore =
        !response.soreness().ofMuscleOnly()
            && (Boolean.TRUE.equals(response.soreness().afterOneHour())
                || Boolean.TRUE.equals(response.soreness().nextDay()));
    return worst != null && worst <= 2 && !sore;
  }
}

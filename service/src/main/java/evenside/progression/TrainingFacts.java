package evenside.progression;

import evenside.measure.TrainingFact;
import evenside.training.Entry;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Facts for criteria, worked out from the training record. Each is a range: what the record shows
 * for certain, and what it leaves open.
 */
public final class TrainingFacts {
  private final Course course;
  private final LocalDate asOf;

  private TrainingFacts(Course course, LocalDate asOf) {
    this.course = course;
    this.asOf = asOf;
  }

  /** The facts of a history; none without a training in it. */
  public static List<TrainingFact> of(History history, Progressions progressions, LocalDate asOf) {
    Course course = new Course(history, new Judge(progressions, Set.of()));
    TrainingFacts facts = new TrainingFacts(course, asOf);
    List<TrainingFact> all = new ArrayList<>();
    if (history.trainings().isEmpty()) {
      facts.standing(all);
      return all;
    }
    all.add(facts.painFree());
    all.add(facts.withoutStepBack());
    facts.levels(all);
    facts.programmes(all);
    facts.standing(all);
    return all;
  }

  /** There is such a fact only while a red flag stands. */
  private void standing(List<TrainingFact> all) {
    Set<TrainingFact.Use> uses = new LinkedHashSet<>();
    for (int i = 0; i < course.bouts().size(); i++) {
      if (!course.stops(i).standing().isEmpty()) {
        uses.add(use(course.bouts().get(i)));
      }
    }
    if (!uses.isEmpty()) {
      int count = uses.size();
      all.add(
          new TrainingFact(
              TrainingFact.STANDING_RED_FLAG, "", count, count, "1", List.copyOf(uses)));
    }
  }

  /**
   * How many sessions up to the last were free of pain, while training and the next morning. An
   * answer that is missing leaves the count open upwards from there.
   */
  private TrainingFact painFree() {
    List<Bout> trainings =
        course.bouts().stream().filter(bout -> bout.training().isPresent()).toList();
    List<TrainingFact.Use> uses = new ArrayList<>();
    int certain = 0;
    int possible = 0;
    boolean sure = true;
    for (int i = trainings.size() - 1; i >= 0; i--) {
      Bout bout = trainings.get(i);
      Optional<Boolean> free = isPainFree(bout);
      uses.add(use(bout));
      if (free.equals(Optional.of(false))) {
        break;
      }
      possible++;
      sure &= free.isPresent();
      certain += sure ? 1 : 0;
    }
    return new TrainingFact(
        TrainingFact.PAIN_FREE_SESSIONS, "", certain, possible, "{sessions}", uses);
  }

  private static Optional<Boolean> isPainFree(Bout bout) {
    Integer worst = bout.response().pain().worst();
    Integer morning = bout.response().pain().nextMorning();
    if ((worst != null && worst > 0) || (morning != null && morning > 0)) {
      return Optional.of(false);
    }
    return worst == null || morning == null ? Optional.empty() : Optional.of(true);
  }

  /** Days since the rules last called for a step back or a stop, or since the first session. */
  private TrainingFact withoutStepBack() {
    List<Bout> bouts = course.bouts();
    int from = bouts.size() - 1;
    boolean open = false;
    while (from > 0 && !calledBack(from)) {
      open |= course.outcome(from).equals(Optional.of(Outcome.INSUFFICIENT_DATA));
      from--;
    }
    if (from == 0 && !calledBack(0)) {
      open |= course.outcome(0).equals(Optional.of(Outcome.INSUFFICIENT_DATA));
    }
    long days = ChronoUnit.DAYS.between(bouts.get(from).day(), asOf);
    List<TrainingFact.Use> uses =
        bouts.subList(from, bouts.size()).stream().map(TrainingFacts::use).toList();
    return new TrainingFact(
        TrainingFact.DAYS_WITHOUT_STEP_BACK, "", open ? 0 : days, days, "d", uses);
  }

  private boolean calledBack(int index) {
    return course.outcome(index).filter(o -> o.compareTo(Outcome.STEP_BACK) <= 0).isPresent();
  }

  /** The highest level done in full that called for no step back, repetition or stop. */
  private void levels(List<TrainingFact> all) {
    for (List<Step> steps : course.work().values()) {
      Item item = steps.get(steps.size() - 1).item();
      if (!item.key().family().equals(WorkKey.RUNNING) || item.progression() == null) {
        continue;
      }
      int certain = 0;
      int possible = 0;
      List<TrainingFact.Use> uses = new ArrayList<>();
      for (int n = 0; n < steps.size(); n++) {
        Step step = steps.get(n);
        Double percent = step.item().percent();
        boolean short100 = percent != null && percent < 100;
        Outcome outcome = outcome(steps, n);
        if (short100 || outcome.compareTo(Outcome.HOLD) < 0) {
          continue;
        }
        boolean sure = percent != null && outcome != Outcome.INSUFFICIENT_DATA;
        certain = sure ? Math.max(certain, step.item().level()) : certain;
        possible = Math.max(possible, step.item().level());
        uses.add(use(step.bout()));
      }
      all.add(
          new TrainingFact(
              TrainingFact.RUNNING_LEVEL, item.key().code(), certain, possible, "{level}", uses));
    }
  }

  private Outcome outcome(List<Step> steps, int n) {
    Stops.Result stops = course.stops(steps.get(n).index());
    return stops.standing().isEmpty() && !stops.cleared()
        ? course.verdict(steps, n).outcome()
        : Outcome.STOP_AND_REFER;
  }

  /** A programme is completed once the clinic states so; silence leaves it open. */
  private void programmes(List<TrainingFact> all) {
    Set<String> stated = new TreeSet<>();
    for (Bout bout : course.bouts()) {
      for (String programme :
          bout.training().map(Entry.Training::programmesCompleted).orElse(Set.of())) {
        if (stated.add(programme)) {
          all.add(
              new TrainingFact(
                  TrainingFact.PROGRAMME_COMPLETED, programme, 1, 1, "1", List.of(use(bout))));
        }
      }
    }
  }

  private static TrainingFact.Use use(Bout bout) {
    return new TrainingFact.Use(bout.session().id(), bout.day());
  }
}

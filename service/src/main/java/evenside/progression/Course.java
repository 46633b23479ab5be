package evenside.progression;

import evenside.training.Entry;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A history, judged bout by bout. What is worked out once is kept. */
final class Course {
  private final History history;
  private final Judge judge;
  private final Map<WorkKey, List<Step>> work = new LinkedHashMap<>();
  private final Stops stopsOf;
  private final Map<Integer, Inputs> shown = new HashMap<>();
  private final Map<Integer, Inputs> knees = new HashMap<>();
  private final Map<Integer, Stops.Result> stops = new HashMap<>();

  Course(History history, Judge judge) {
    this.history = history;
    this.judge = judge;
    this.stopsOf = new Stops(judge, history, this::shown);
    List<Bout> bouts = history.bouts();
    for (int i = 0; i < bouts.size(); i++) {
      Optional<Entry.Training> training = bouts.get(i).training();
      List<Item> items = training.map(Items::of).orElse(List.of());
      for (Item item : items) {
        work.computeIfAbsent(item.key(), key -> new ArrayList<>())
            .add(new Step(i, bouts.get(i), item));
      }
    }
  }

  Judge judge() {
    return judge;
  }

  List<Bout> bouts() {
    return history.bouts();
  }

  Map<WorkKey, List<Step>> work() {
    return work;
  }

  Stops.Result stops(int index) {
    return stops.computeIfAbsent(index, stopsOf::of);
  }

  /** What the knee showed with a bout, without what a clinician made of it. Not to be changed. */
  private Inputs shown(int index) {
    return shown.computeIfAbsent(
        index,
        i -> {
          Bout bout = bouts().get(i);
          return new KneeInputs(judge.inputs().redFlags(), bouts().subList(0, i), bout)
              .with(bout.redFlags(any -> true));
        });
  }

  /** What the knee showed with a bout, all entries of it together. */
  Inputs knee(int index) {
    return knees.computeIfAbsent(index, this::kneeInputs);
  }

  private Inputs kneeInputs(int index) {
    Inputs inputs = shown(index).copy();
    if (!inputs.value("red-flags-answered").equals(Known.flag(true))) {
      // Not answered is neither yes nor no.
      inputs.put("red-flags-answered", Known.NOTHING);
    }
    inputs.flag("stop-cleared", stops(index).cleared());
    return inputs;
  }

  boolean redFlagsComplete(int index) {
    return knee(index).value("red-flags-answered").equals(Known.flag(true));
  }

  /** The verdict on the n-th session of a piece of work, its frequency left aside. */
  Verdict verdict(List<Step> steps, int n) {
    List<Step> upTo = steps.subList(0, n + 1);
    return verdict(upTo, null);
  }

  /**
   * The verdict on the last of some steps.
   *
   * @param plannedOn day of the next session, or null to leave frequency aside
   */
  Verdict verdict(List<Step> upTo, java.time.@Nullable LocalDate plannedOn) {
    Step step = upTo.get(upTo.size() - 1);
    Progression progression = judge.progression(step.item()).orElse(null);
    Inputs inputs =
        new CourseInputs(bouts().subList(0, step.index()), upTo, progression)
            .addTo(knee(step.index()), plannedOn);
    return judge.judge(step.bout(), step.item(), inputs);
  }

  /** What all bouts after one say of the knee. */
  Verdict since(int index) {
    Verdict verdict = Verdict.NONE;
    for (int i = index + 1; i < bouts().size(); i++) {
      verdict = verdict.and(judge.aboutKnee(bouts().get(i), knee(i)));
    }
    return verdict;
  }

  /**
   * The most cautious outcome that a bout called for on any of its pieces of work, stops included;
   * empty for a look at the knee that calls for nothing.
   */
  Optional<Outcome> outcome(int index) {
    List<Outcome> outcomes = new ArrayList<>();
    Verdict knee = judge.aboutKnee(bouts().get(index), knee(index));
    if (!knee.equals(Verdict.NONE)) {
      outcomes.add(knee.outcome());
    }
    if (!stops(index).standing().isEmpty() || stops(index).cleared()) {
      outcomes.add(Outcome.STOP_AND_REFER);
    }
    for (List<Step> steps : work.values()) {
      for (int n = 0; n < steps.size(); n++) {
        if (steps.get(n).index() == index) {
          outcomes.add(verdict(steps, n).outcome());
        }
      }
    }
    return outcomes.isEmpty() ? Optional.empty() : Optional.of(Outcome.mostCautious(outcomes));
  }
}

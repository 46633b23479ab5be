package evenside.progression;

import evenside.criteria.Truth;
import evenside.training.PlannedLevel;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * Holds all rules that apply against one session. No rule is left out because another already
 * decided. A step up needs every set that gates it: the sets about the knee and the progression
 * itself.
 */
final class Judge {
  private final Progressions progressions;
  private final Set<String> chosen;
  private final List<Progression> kneeSets;
  private final Map<Asked, List<Part>> parts = new ConcurrentHashMap<>();

  /**
   * Takes the rules.
   *
   * @param chosen {@code id/version} of sets the caller wants counted; each replaces the other
   *     versions of its id
   */
  Judge(Progressions progressions, Set<String> chosen) {
    this.progressions = progressions;
    this.chosen = Set.copyOf(chosen);
    this.kneeSets =
        progressions.all().stream().filter(Progression::isAboutKnee).filter(this::counts).toList();
  }

  InputCatalogue inputs() {
    return progressions.inputs();
  }

  /** The progression a session names, if there is such a one. */
  Optional<Progression> progression(Item item) {
    return item.progression() == null
        ? Optional.empty()
        : progressions.find(item.progression().id(), item.progression().version());
  }

  /**
   * A set and its part in judging one item.
   *
   * @param counted true if what it calls for counts
   * @param gates true if a step up needs it
   * @param ups its rules that call for a step up
   */
  record Part(Progression set, boolean counted, boolean gates, List<Rule> ups) {
    Part(Progression set, boolean counted, boolean gates) {
      this(
          set,
          counted,
          gates,
          set.rules().stream().filter(rule -> rule.outcome() == Outcome.ADVANCE).toList());
    }
  }

  /** What of an item says which sets apply. */
  private record Asked(
      @Nullable String set, @Nullable String version, String family, String exercise) {}

  /** Every set that applies to an item. */
  List<Part> parts(Item item) {
    PlannedLevel named = item.progression();
    Asked asked =
        new Asked(
            named == null ? null : named.id(),
            named == null ? null : named.version(),
            item.key().family(),
            item.exercise());
    return parts.computeIfAbsent(asked, any -> find(item));
  }

  private List<Part> find(Item item) {
    Optional<Progression> progression = progression(item);
    List<Part> parts = new ArrayList<>();
    progression.ifPresent(set -> parts.add(new Part(set, true, true)));
    for (Progression set : progressions.unnamed(item.key().family(), item.exercise())) {
      if (!progression.equals(Optional.of(set))) {
        boolean counted = counts(set);
        parts.add(new Part(set, counted, counted && (set.isAboutKnee() || progression.isEmpty())));
      }
    }
    return parts;
  }

  /** The sets about the knee that count. */
  List<Progression> kneeSets() {
    return kneeSets;
  }

  boolean counts(Progression set) {
    boolean otherVersionChosen = chosen.stream().anyMatch(name -> name.startsWith(set.id() + "/"));
    return chosen.contains(set.name())
        || (set.use() == Progression.Use.ALWAYS && !otherVersionChosen);
  }

  /** Judges a session of a piece of work. Stops are judged apart, since a clearance ends them. */
  Verdict judge(Bout bout, Item item, Inputs inputs) {
    List<Hit> hits = new ArrayList<>();
    Set<Unanswered> open = new LinkedHashSet<>();
    for (Part part : parts(item)) {
      judge(part, bout, inputs, hits, open);
    }
    return new Verdict(hits, List.copyOf(open));
  }

  private void judge(Part part, Bout bout, Inputs inputs, List<Hit> hits, Set<Unanswered> open) {
    boolean heldBack = false;
    for (Rule rule : part.set().rules()) {
      Truth truth = rule.on(inputs);
      boolean stop = rule.outcome() == Outcome.STOP_AND_REFER;
      if (truth == Truth.MET && !stop && rule.outcome() != Outcome.ADVANCE) {
        hits.add(Hit.of(part.set(), rule, part.counted(), inputs, bout));
        heldBack = true;
      } else if (truth == Truth.UNDETERMINED && part.gates() && rule.outcome() != Outcome.ADVANCE) {
        open(rule, inputs, bout, open);
      }
    }
    stepUp(part, bout, inputs, heldBack, hits, open);
  }

  private void stepUp(
      Part part, Bout bout, Inputs inputs, boolean heldBack, List<Hit> hits, Set<Unanswered> open) {
    Truth any = Truth.NOT_MET;
    for (Rule rule : part.ups()) {
      any = any.or(rule.on(inputs));
    }
    for (Rule rule : part.ups()) {
      if (any == Truth.MET && rule.on(inputs) == Truth.MET) {
        // A set that does not gate a step up does not call for one either.
        hits.add(Hit.of(part.set(), rule, part.gates(), inputs, bout));
      } else if (any == Truth.UNDETERMINED && part.gates()) {
        open(rule, inputs, bout, open);
      } else if (any == Truth.NOT_MET && part.gates() && !heldBack) {
        hits.add(Hit.notCalledFor(part.set(), rule, true, inputs, bout));
      }
    }
  }

  /** What a bout says of the knee for all other work too: never a reason for a step up. */
  Verdict aboutKnee(Bout bout, Inputs inputs) {
    boolean training = bout.training().isPresent();
    List<Hit> hits = new ArrayList<>();
    Set<Unanswered> open = new LinkedHashSet<>();
    for (Progression set : kneeSets) {
      for (Rule rule : set.rules()) {
        boolean holdsBack =
            rule.aboutKnee()
                && rule.outcome() != Outcome.ADVANCE
                && rule.outcome() != Outcome.STOP_AND_REFER;
        Truth truth = holdsBack ? rule.on(inputs) : Truth.NOT_MET;
        // A look at the knee by itself answers some questions and is not asked for the others.
        if (truth == Truth.MET && (training || rule.outcome() != Outcome.INSUFFICIENT_DATA)) {
          hits.add(Hit.of(set, rule, true, inputs, bout));
        } else if (truth == Truth.UNDETERMINED && training) {
          open(rule, inputs, bout, open);
        }
      }
    }
    return new Verdict(hits, List.copyOf(open));
  }

  /** The stops that a bout calls for. */
  List<Hit> stops(Bout bout, Inputs inputs) {
    List<Hit> hits = new ArrayList<>();
    for (Progression set : kneeSets) {
      for (Rule rule : set.rules()) {
        if (rule.outcome() == Outcome.STOP_AND_REFER && rule.on(inputs) == Truth.MET) {
          hits.add(Hit.of(set, rule, true, inputs, bout));
        }
      }
    }
    return hits;
  }

  private void open(Rule rule, Inputs inputs, Bout bout, Set<Unanswered> open) {
    for (Test test : rule.when().open(inputs)) {
      open.add(unanswered(test.input(), bout));
    }
  }

  Unanswered unanswered(String input, Bout bout) {
    return new Unanswered(input, inputs().get(input).question(), bout.session().id());
  }
}

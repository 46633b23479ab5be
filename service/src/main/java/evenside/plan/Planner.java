package evenside.plan;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.FactCriterion;
import evenside.criteria.Finding;
import evenside.criteria.GradeBound;
import evenside.criteria.NumberBound;
import evenside.criteria.ToMeet;
import evenside.criteria.Truth;
import evenside.decision.Decision;
import evenside.knee.KneeCase;
import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Measured;
import evenside.measure.Value;
import evenside.plan.Plan.Choice;
import evenside.plan.Plan.Deficit;
import evenside.plan.Plan.Item;
import evenside.plan.Plan.Kind;
import evenside.plan.Plan.Work;
import evenside.progression.Advice;
import evenside.quantity.Decimals;
import evenside.quantity.Quantity;
import evenside.trend.Series;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Proposes a plan from how the criteria stand. Only criteria that still matter are in it: one of a
 * group that is met by others is not.
 */
public final class Planner {
  private final FocusAreas areas;
  private final MeasureCatalogue catalogue;

  public Planner(FocusAreas areas, MeasureCatalogue catalogue) {
    this.areas = areas;
    this.catalogue = catalogue;
  }

  /**
   * The proposal for a case.
   *
   * @param advice what the rules say about the next training, or null without a training record
   */
  public Plan propose(
      Decision decision,
      Evidence evidence,
      KneeCase kneeCase,
      List<Series> series,
      @Nullable Advice advice) {
    List<Modifier> modifiers =
        areas.modifiers().stream()
            .filter(modifier -> modifier.concerns(kneeCase, decision.asOf()))
            .toList();
    Optional<FocusAreas.Phase> phase = areas.phase(decision.criteriaSet().milestone());
    return new Plan(
        decision,
        new Proposal(decision, evidence, modifiers, series, phase).items(),
        modifiers,
        phase.orElse(null),
        advice);
  }

  /** The making of one plan. */
  private final class Proposal {
    private final Decision decision;
    private final Evidence evidence;
    private final Optional<FocusAreas.Phase> phase;
    private final List<Modifier> modifiers;
    private final List<Series> series;
    private final Map<String, Criterion.Leaf> leaves;
    private final List<Item> items = new ArrayList<>();

    private Proposal(
        Decision decision,
        Evidence evidence,
        List<Modifier> modifiers,
        List<Series> series,
        Optional<FocusAreas.Phase> phase) {
      this.decision = decision;
      this.phase = phase;
      this.evidence = evidence;
      this.modifiers = modifiers;
      this.series = series;
      CriteriaSet set = decision.criteriaSet();
      this.leaves =
          set.leaves().collect(Collectors.toMap(Criterion::id, Function.identity(), (a, b) -> a));
    }

    private List<Item> items() {
      Map<String, Outlook> outlooks =
          Outlook.of(decision.criteriaSet(), decision.finding(), series, catalogue).stream()
              .collect(Collectors.toMap(one -> one.finding().id(), Function.identity()));
      walk(decision.finding(), null, outlooks);
      return items;
    }

    private void walk(Finding finding, @Nullable Finding oneOf, Map<String, Outlook> outlooks) {
      if (finding.truth() == Truth.MET || finding.truth() == null) {
        return;
      }
      if (finding.about() != null) {
        items.add(
            item(finding, oneOf, java.util.Objects.requireNonNull(outlooks.get(finding.id()))));
        return;
      }
      Finding choice = finding.type().equals("all") ? oneOf : finding;
      finding.of().forEach(child -> walk(child, choice, outlooks));
    }

    private Item item(Finding finding, @Nullable Finding oneOf, Outlook outlook) {
      Criterion.Leaf leaf = java.util.Objects.requireNonNull(leaves.get(finding.id()));
      String measure = measure(leaf);
      if (measure == null) {
        return Item.waiting(finding, oneOf, outlook);
      }
      List<FocusArea> focus = areas.of(measure);
      List<Modifier> concerned =
          modifiers.stream().filter(modifier -> touches(modifier, focus, measure)).toList();
      return new Item(
          finding,
          kind(finding, leaf),
          measure,
          oneOf,
          deficits(leaf),
          focus.stream().map(this::work).toList(),
          outlook,
          new RetestDay(decision.asOf(), catalogue, series).of(finding, leaf, measure, focus),
          concerned,
          focus.stream().anyMatch(FocusArea::testWithTherapist),
          modifiers.stream()
              .filter(modifier -> modifier.tests().contains(measure))
              .findFirst()
              .orElse(null));
    }

    private List<Deficit> deficits(Criterion.Leaf leaf) {
      return leaf instanceof NumberBound cutOff
          ? cutOff.shortfalls(evidence).stream()
              .flatMap(shortfall -> deficit(shortfall).stream())
              .toList()
          : List.of();
    }

    private Work work(FocusArea area) {
      return new Work(
          area,
          area.exercises().stream()
              .map(exercise -> new Choice(exercise, later(exercise), heldBack(exercise)))
              .toList());
    }

    private boolean later(Exercise exercise) {
      return phase.filter(now -> areas.isLater(exercise, now)).isPresent();
    }

    private @Nullable Modifier heldBack(Exercise exercise) {
      return modifiers.stream()
          .filter(Modifier::withholds)
          .filter(modifier -> modifier.exercises().contains(exercise.code()))
          .findFirst()
          .orElse(null);
    }
  }

  private static boolean touches(Modifier modifier, List<FocusArea> focus, String measure) {
    return modifier.tests().contains(measure)
        || focus.stream()
            .anyMatch(
                area ->
                    modifier.areas().contains(area.code())
                        || area.exercises().stream()
                            .anyMatch(e -> modifier.exercises().contains(e.code())));
  }

  private static @Nullable String measure(Criterion.Leaf leaf) {
    if (leaf instanceof NumberBound cutOff) {
      return cutOff.measure();
    }
    if (leaf instanceof GradeBound grade) {
      return grade.measure();
    }
    return leaf instanceof FactCriterion fact ? fact.measure() : null;
  }

  private static Kind kind(Finding finding, Criterion.Leaf leaf) {
    if (finding.truth() == Truth.UNDETERMINED) {
      return Kind.TEST;
    }
    return leaf instanceof NumberBound ? Kind.TRAIN : Kind.EXAMINE;
  }

  private static Optional<Deficit> deficit(NumberBound.ToMeetBy shortfall) {
    ToMeet toMeet = shortfall.toMeet();
    Measured measured = shortfall.measured();
    Value seen =
        toMeet.operatedLeg() && !measured.inputs().isEmpty()
            ? measured.inputs().get(0).value()
            : measured.value();
    if (toMeet.quantity() == null
        || toMeet.comparator() == null
        || !(seen instanceof Value.Amount amount)) {
      return Optional.empty();
    }
    Quantity needed = toMeet.quantity();
    double missing = Decimals.exact(needed.value() - amount.quantity().value());
    return Optional.of(
        new Deficit(
            measured.protocol(),
            toMeet.comparator(),
            needed,
            amount.quantity(),
            new Quantity(missing, needed.unit())));
  }

  /** The aspect of a leaf, where it has one. */
  static Optional<Aspect> aspect(Criterion.Leaf leaf) {
    return leaf instanceof NumberBound cutOff ? Optional.of(cutOff.aspect()) : Optional.empty();
  }
}

package evenside.decision;

import evenside.criteria.ErrorBand;
import evenside.criteria.Finding;
import evenside.criteria.StudiedPeople;
import evenside.criteria.Truth;
import evenside.knee.KneeCase;
import evenside.measure.Aspect;
import evenside.measure.Input;
import evenside.measure.Protocol;
import evenside.measure.TrainingFact;
import evenside.measure.Value;
import evenside.quantity.Decimals;
import evenside.quantity.Quantity;
import evenside.signs.EffusionGrade;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Which cautions travel with a decision. The texts, with their sources, are data; here stands only
 * what calls for them. None changes an outcome.
 */
public final class Cautions {
  /**
   * Facts that ask for a clinician now, whatever the criteria show: clinical prudence, no source.
   */
  public static final List<String> RED_FLAGS =
      List.of(
          "gives-way", "locking", "new-injury", "fever-or-wound-problem", "calf-pain-and-swelling");

  /** The measure of effusion, which calls for a caution from 2+ on. */
  public static final String EFFUSION = "knee-effusion-grade";

  /** Results older than this are pointed out: common practice, no source. */
  private static final int OLD_DAYS = 60;

  /** Characters that a list of results may take in a caution. */
  private static final int ROOM = 450;

  private static final Value YES = new Value.Fact(true);

  private static final Set<String> EXTENSOR_GRAFTS = Set.of("patellar-tendon", "quadriceps-tendon");

  /** A caution's condition; gives what to add to its text, empty text for nothing. */
  private record Trigger(String code, Function<Situation, Optional<String>> when) {}

  private static final List<Trigger> TRIGGERS =
      List.of(
          new Trigger("red-flag", Cautions::redFlags),
          new Trigger("standing-red-flag", Cautions::standingRedFlag),
          when("effusion-two-plus", Cautions::effusionTwoPlus),
          when("clinician-decides", s -> true),
          new Trigger("surgeon-limits", Cautions::surgeonLimits),
          when("does-not-rule-out-reinjury", s -> true),
          when("designed-for-progression-entry", s -> milestone(s, "start-progression")),
          new Trigger("population-differs", Cautions::populationDiffers),
          new Trigger("population-not-stated", Cautions::populationNotStated),
          when("other-knee-history", s -> !s.kneeCase().otherKneeWithoutHistory()),
          when("graft-from-other-leg", s -> s.kneeCase().graftFromOtherLeg()),
          when("revision-surgery", s -> s.kneeCase().revision()),
          when("multiligament", s -> did(s, "multiligament-reconstruction")),
          when("meniscal-repair", s -> s.kneeCase().hadMeniscalRepair()),
          when("allograft", s -> s.kneeCase().graft().equals("allograft")),
          when("graft-extensor-first", s -> grafted(s, EXTENSOR_GRAFTS)),
          when("graft-flexor-first", s -> grafted(s, Set.of("hamstring-tendon"))),
          when("age-under-25", Cautions::under25),
          when("young-symmetry-counter-evidence", Cautions::under25),
          when("level-1-sport", s -> "level-1".equals(s.kneeCase().sportLevel())),
          when("before-nine-months", Cautions::beforeNineMonths),
          new Trigger("near-bound", Cautions::nearBound),
          when("hand-held-dynamometer", Cautions::handHeld),
          new Trigger("old-results", Cautions::oldResults),
          new Trigger("repeated-looks", Cautions::repeatedLooks),
          when("symmetry-above-100", Cautions::symmetryAbove100),
          when("hq-not-a-substitute", Cautions::ratioShown),
          when("healthy-people-fail-too", s -> anySymmetry(s, Truth.NOT_MET)));

  private final Map<String, Caution> texts;

  /**
   * Takes the texts of all cautions.
   *
   * @param texts the catalogue's cautions
   * @throws IllegalArgumentException if a caution has no text
   */
  public Cautions(List<Caution> texts) {
    this.texts = texts.stream().collect(Collectors.toMap(Caution::code, Function.identity()));
    for (Trigger trigger : TRIGGERS) {
      if (!this.texts.containsKey(trigger.code())) {
        throw new IllegalArgumentException("the catalogue has no caution " + trigger.code());
      }
    }
  }

  List<Caution> of(Situation situation) {
    List<Caution> found = new ArrayList<>();
    for (Trigger trigger : TRIGGERS) {
      trigger.when().apply(situation).ifPresent(more -> found.add(with(trigger.code(), more)));
    }
    return found;
  }

  private Caution with(String code, String more) {
    return Objects.requireNonNull(texts.get(code)).with(more);
  }

  private static Trigger when(String code, Predicate<Situation> condition) {
    return new Trigger(code, s -> condition.test(s) ? Optional.of("") : Optional.empty());
  }

  private static Optional<String> redFlags(Situation s) {
    List<String> stated = new ArrayList<>();
    for (String flag : RED_FLAGS) {
      if (s.evidence().lastSaid(flag, Aspect.VALUE).contains(YES)) {
        stated.add(flag);
      }
    }
    return stated.isEmpty() ? Optional.empty() : Optional.of("Stated: " + joined(stated) + ".");
  }

  private static Optional<String> standingRedFlag(Situation s) {
    return s.evidence()
        .training(TrainingFact.STANDING_RED_FLAG, "")
        .map(
            fact ->
                "Stated on: "
                    + fact.uses().stream()
                        .map(use -> use.performedOn().toString())
                        .distinct()
                        .collect(Collectors.joining(", "))
                    + ".");
  }

  private static boolean effusionTwoPlus(Situation s) {
    for (Value value : s.evidence().lastSaid(EFFUSION, Aspect.OPERATED)) {
      if (value instanceof Value.Grade seen
          && seen.grade().compareTo(EffusionGrade.TWO_PLUS) >= 0) {
        return true;
      }
    }
    return false;
  }

  private static Optional<String> surgeonLimits(Situation s) {
    List<String> holding = new ArrayList<>();
    for (KneeCase.SurgeonLimit limit : s.kneeCase().surgeonLimits()) {
      if (limit.holdsOn(s.evidence().asOf())) {
        holding.add(limit.limit());
      }
    }
    return holding.isEmpty() ? Optional.empty() : Optional.of("Limits: " + joined(holding) + ".");
  }

  private static boolean milestone(Situation s, String code) {
    return s.set().milestone().equals(code);
  }

  private static Optional<String> populationDiffers(Situation s) {
    return named("Here: ", s, StudiedPeople::differences);
  }

  private static Optional<String> populationNotStated(Situation s) {
    return named("Not stated: ", s, StudiedPeople::notStated);
  }

  private static Optional<String> named(
      String lead, Situation s, BiFunction<StudiedPeople, KneeCase, List<String>> found) {
    StudiedPeople studied = s.set().studied();
    List<String> names = studied == null ? List.of() : found.apply(studied, s.kneeCase());
    return names.isEmpty() ? Optional.empty() : Optional.of(lead + String.join(", ", names) + ".");
  }

  /** What is said of the donor site is of a graft from the operated leg. */
  private static boolean grafted(Situation s, Set<String> grafts) {
    return grafts.contains(s.kneeCase().graft()) && !s.kneeCase().graftFromOtherLeg();
  }

  private static boolean did(Situation s, String procedure) {
    return s.kneeCase().concomitant().contains(procedure);
  }

  /** Only the birth year is known, so a person who may still be 24 counts as under 25. */
  private static boolean under25(Situation s) {
    return s.evidence().asOf().getYear() - s.kneeCase().birthYear() <= 25;
  }

  private static boolean beforeNineMonths(Situation s) {
    boolean late = milestone(s, "full-training") || milestone(s, "return-to-competition");
    return late && s.evidence().asOf().isBefore(s.kneeCase().surgeryDate().plusMonths(9));
  }

  /** Names each result with the error of its own test. */
  private static Optional<String> nearBound(Situation s) {
    List<Finding> near = new ArrayList<>();
    for (Finding leaf : s.leaves()) {
      ErrorBand band = leaf.error();
      if (band != null && band.boundWithin()) {
        near.add(leaf);
      }
    }
    return near.isEmpty() ? Optional.empty() : Optional.of(named(near));
  }

  private static String named(List<Finding> near) {
    List<String> results = near.stream().map(one -> one.title() + ", " + own(one)).toList();
    return "Here: " + Listed.within(ROOM, results) + ".";
  }

  private static String own(Finding near) {
    ErrorBand band = Objects.requireNonNull(near.error());
    double half = Decimals.exact((band.high() - band.low()) / 2);
    return "± "
        + new Quantity(half, band.valueUnit())
        + (band.error().verified() ? "" : " (not verified)");
  }

  private static boolean handHeld(Situation s) {
    for (Finding leaf : s.leaves()) {
      for (Input input : leaf.inputs()) {
        if ("hand-held-dynamometer".equals(input.protocol().terms().get(Protocol.METHOD))) {
          return true;
        }
      }
    }
    return false;
  }

  /** A value from before surgery is old by design: the yardstick of pre-injury capacity. */
  private static Optional<String> oldResults(Situation s) {
    long oldest = 0;
    for (Finding leaf : s.leaves()) {
      for (Input input : leaf.inputs()) {
        if (!s.kneeCase().isBeforeSurgery(input.performedOn())) {
          oldest = Math.max(oldest, s.evidence().ageDays(input.performedOn()));
        }
      }
    }
    return oldest > OLD_DAYS
        ? Optional.of("The oldest result used is " + oldest + " days old.")
        : Optional.empty();
  }

  private static Optional<String> repeatedLooks(Situation s) {
    RepeatLooks looks = s.looks();
    return looks.batteries() > 1
        ? Optional.of(
            "Here: "
                + looks.batteries()
                + " batteries, which makes that chance "
                + new Quantity(looks.chanceOfFalseChange(), "%")
                + " for a test that each of them holds.")
        : Optional.empty();
  }

  private static boolean symmetryAbove100(Situation s) {
    return any(s, leaf -> comparesLegs(leaf) && isPercentAbove100(leaf.value()));
  }

  private static boolean isPercentAbove100(@Nullable Value value) {
    return value instanceof Value.Amount number
        && number.quantity().unit().equals("%")
        && number.quantity().value() > 100;
  }

  private static boolean ratioShown(Situation s) {
    return any(s, leaf -> leaf.value() != null && isRatio(leaf));
  }

  private static boolean anySymmetry(Situation s, Truth truth) {
    return any(s, leaf -> leaf.truth() == truth && comparesLegs(leaf));
  }

  private static boolean any(Situation s, Predicate<Finding> holds) {
    for (Finding leaf : s.leaves()) {
      if (holds.test(leaf)) {
        return true;
      }
    }
    return false;
  }

  /** Both legs on one day; pre-injury capacity has the other leg's value from before surgery. */
  private static boolean comparesLegs(Finding leaf) {
    return leaf.inputs().size() == 2
        && !isRatio(leaf)
        && leaf.inputs().get(0).batteryId().equals(leaf.inputs().get(1).batteryId());
  }

  /** A ratio joins two muscles of one leg, a symmetry one muscle of two legs. */
  private static boolean isRatio(Finding leaf) {
    return leaf.inputs().size() == 2 && leaf.inputs().get(0).side() == leaf.inputs().get(1).side();
  }

  private static String joined(List<String> codes) {
    return String.join(", ", codes).replace('-', ' ');
  }
}

package evenside.criteria;

import evenside.measure.Aspect;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.measure.TrainingFact;
import evenside.quantity.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Checks a criteria set once against the catalogue, so that a faulty set fails when it is published
 * and never in front of a person: every measure is known, has the number asked for, in that unit,
 * and the bound is plausible.
 */
public final class Binding {
  /** Widest plausible bound on a percentage of the other leg or of pre-injury capacity. */
  private static final double MOST_PERCENT = 200;

  /** Widest plausible bound on torque per body mass, N.m/kg: own proposal, wide on purpose. */
  private static final double MOST_PER_MASS = 10;

  private final MeasureCatalogue catalogue;
  private final List<Misfit> misfits = new ArrayList<>();

  private Binding(MeasureCatalogue catalogue) {
    this.catalogue = catalogue;
  }

  /**
   * Something in a set that does not fit the catalogue.
   *
   * @param pointer JSON Pointer of the place in the set's document
   * @param kind what does not fit
   * @param detail in words, with the limit
   */
  public record Misfit(String pointer, Kind kind, String detail) {}

  /** What can be wrong with a set. */
  public enum Kind {
    MEASURE_UNKNOWN,
    MEASURE_WRONG_FAMILY,
    ASPECT_NOT_OFFERED,
    UNIT_NOT_OF_MEASURE,
    BOUND_IMPLAUSIBLE,
    COUNT_TOO_LARGE,
    CRITERION_DUPLICATE,
    FACT_INCOMPLETE
  }

  /** Everything that does not fit; empty if the set can be used. */
  public static List<Misfit> misfits(CriteriaSet set, MeasureCatalogue catalogue) {
    Binding binding = new Binding(catalogue);
    binding.walk(set.criteria(), "/criteria");
    for (int i = 0; i < set.informative().size(); i++) {
      binding.walk(set.informative().get(i), "/informative/" + i);
    }
    binding.duplicates(set);
    return binding.misfits;
  }

  private void walk(Criterion criterion, String pointer) {
    if (criterion instanceof Criterion.Group group) {
      for (int i = 0; i < group.of().size(); i++) {
        walk(group.of().get(i), pointer + "/of/" + i);
      }
      if (criterion instanceof Criterion.AtLeast some && some.count() > some.of().size()) {
        add(pointer + "/count", Kind.COUNT_TOO_LARGE, "the group has only " + some.of().size());
      }
    } else if (criterion instanceof NumberBound cutOff) {
      cutOff(cutOff, pointer);
    } else if (criterion instanceof GradeBound grade) {
      family(grade.measure(), "effusion", pointer);
    } else if (criterion instanceof FactCriterion fact) {
      family(fact.measure(), "clinicianFact", pointer);
    } else if (criterion instanceof TrainingCriterion training) {
      training(training, pointer);
    }
  }

  private void training(TrainingCriterion training, String pointer) {
    if (TrainingFact.isAboutOne(training.fact()) == training.of().isEmpty()) {
      add(
          pointer + "/of",
          Kind.FACT_INCOMPLETE,
          training.of().isEmpty()
              ? training.fact() + " is about one progression or programme: name it"
              : training.fact() + " is about all training and names none");
    }
    String unit = TrainingFact.unitOf(training.fact());
    if (!unit.equals(training.unit())) {
      add(pointer + "/unit", Kind.UNIT_NOT_OF_MEASURE, "the unit of this number is " + unit);
    }
  }

  private void cutOff(NumberBound cutOff, String pointer) {
    Optional<Measure> found = measure(cutOff.measure(), pointer);
    if (found.isEmpty()) {
      return;
    }
    Measure measure = found.get();
    if (!offers(measure, cutOff.aspect())) {
      add(
          pointer + "/aspect",
          Kind.ASPECT_NOT_OFFERED,
          measure.recordOnly()
              ? measure.code() + " is kept for the record only"
              : measure.code() + " has no aspect " + cutOff.aspect().code());
      return;
    }
    String unit = NumberBound.unitOf(measure, cutOff.aspect());
    if (!unit.equals(cutOff.unit())) {
      add(pointer + "/unit", Kind.UNIT_NOT_OF_MEASURE, "the unit of this number is " + unit);
      return;
    }
    double least = least(measure, cutOff.aspect());
    double most = most(measure, cutOff.aspect());
    if (cutOff.bound() < least || cutOff.bound() > most) {
      add(
          pointer + "/bound",
          Kind.BOUND_IMPLAUSIBLE,
          "plausible is " + Quantity.text(least) + " to " + Quantity.text(most));
    }
  }

  private static double least(Measure measure, Aspect aspect) {
    return switch (aspect) {
      case OPERATED, OTHER, VALUE -> measure.least();
      case DIFFERENCE -> -measure.most();
      case SYMMETRY,
          PRE_INJURY_CAPACITY,
          OPERATED_PER_HEIGHT,
          OPERATED_PER_MASS,
          OPERATED_PER_LIMB_LENGTH,
          OTHER_PER_LIMB_LENGTH ->
          0;
    };
  }

  private static double most(Measure measure, Aspect aspect) {
    return switch (aspect) {
      case OPERATED, OTHER, VALUE, DIFFERENCE -> measure.most();
      case SYMMETRY, PRE_INJURY_CAPACITY -> MOST_PERCENT;
      // Of a height or limb of one metre: a distance in cm is then its percentage of it.
      case OPERATED_PER_HEIGHT, OPERATED_PER_LIMB_LENGTH, OTHER_PER_LIMB_LENGTH -> measure.most();
      case OPERATED_PER_MASS -> MOST_PER_MASS;
    };
  }

  private static boolean offers(Measure measure, Aspect aspect) {
    if (measure.recordOnly()) {
      return false;
    }
    return switch (aspect) {
      case SYMMETRY, PRE_INJURY_CAPACITY -> measure.symmetry() == Measure.SymmetryRule.RATIO;
      case DIFFERENCE -> measure.symmetry() == Measure.SymmetryRule.DIFFERENCE;
      case OPERATED, OTHER -> measure.sided() && !measure.family().equals("effusion");
      case OPERATED_PER_MASS -> measure.perMass();
      case OPERATED_PER_HEIGHT -> measure.perHeight();
      case OPERATED_PER_LIMB_LENGTH -> measure.perLimbLength();
      case OTHER_PER_LIMB_LENGTH -> false;
      case VALUE -> !measure.sided() && !measure.family().equals("clinicianFact");
    };
  }

  private void family(String code, String family, String pointer) {
    measure(code, pointer)
        .filter(measure -> !measure.family().equals(family))
        .ifPresent(
            measure ->
                add(
                    pointer + "/measure",
                    Kind.MEASURE_WRONG_FAMILY,
                    code + " is not of " + family));
  }

  private Optional<Measure> measure(String code, String pointer) {
    Optional<Measure> measure = catalogue.find(code);
    if (measure.isEmpty()) {
      add(pointer + "/measure", Kind.MEASURE_UNKNOWN, "the catalogue has no measure " + code);
    }
    return measure;
  }

  private void duplicates(CriteriaSet set) {
    List<String> ids = set.leaves().map(Criterion::id).toList();
    ids.stream()
        .distinct()
        .filter(id -> ids.indexOf(id) != ids.lastIndexOf(id))
        .forEach(
            id -> add("", Kind.CRITERION_DUPLICATE, "more than one criterion has the id " + id));
  }

  private void add(String pointer, Kind kind, String detail) {
    misfits.add(new Misfit(pointer, kind, detail));
  }
}

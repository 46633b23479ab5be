package evenside.criteria;

import evenside.knee.Yardstick;
import evenside.measure.Aspect;
import evenside.measure.CatalogueEntry;
import evenside.measure.Evidence;
import evenside.measure.Gap;
import evenside.measure.Lookup;
import evenside.measure.Measure;
import evenside.measure.Measured;
import evenside.measure.MeasurementError;
import evenside.measure.ProtocolRule;
import evenside.measure.Rescale;
import evenside.measure.Value;
import evenside.quantity.Decimals;
import evenside.quantity.Quantity;
import evenside.questionnaire.CutOff;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A number compared with a bound.
 *
 * @param about id, title, citation
 * @param entry the measure in the catalogue
 * @param aspect which number of it
 * @param rule which ways of testing count
 * @param comparator how it is compared, unrounded
 * @param bound in the unit given
 * @param unit UCUM code
 */
public record NumberBound(
    About about,
    CatalogueEntry entry,
    Aspect aspect,
    ProtocolRule rule,
    Comparator comparator,
    double bound,
    String unit)
    implements TestedCriterion {
  private static final Finding.Reason OTHER_LEG =
      new Finding.Reason(
          Gap.Reason.OTHER_KNEE_NOT_SOUND.code(),
          "the other knee has a history of its own, so comparing with it cannot show that there is"
              + " no deficit");

  private static final Finding.Reason DONOR_LEG =
      new Finding.Reason(
          Gap.Reason.GRAFT_FROM_OTHER_LEG.code(),
          "the graft was taken from the other leg, so comparing with it cannot show that there is"
              + " no deficit");

  /** Code of the measure. */
  public String measure() {
    return entry.code();
  }

  @Override
  public String type() {
    return "cut-off";
  }

  @Override
  public Bound asked() {
    return new Bound(comparator, Value.Amount.of(bound, unit));
  }

  @Override
  public Lookup newest(Evidence evidence) {
    return evidence.newest(measure(), aspect, rule);
  }

  @Override
  public double favour(Measured measured) {
    return comparator.upward() ? number(measured) : -number(measured);
  }

  /** Comparing with a leg that is no sound yardstick cannot show that there is no deficit. */
  @Override
  public Finding on(Measured measured, Evidence evidence, boolean required) {
    double value = number(measured);
    double compared = comparable(value);
    Truth truth = Truth.of(comparator.test(compared, bound));
    Finding.Reason doubt = doubt(evidence.otherLeg());
    return doubt != null && truth == Truth.MET
        ? SingleFinding.undetermined(this, required, measured.value(), measured.inputs(), doubt)
        : new NumberFinding(
            this,
            required,
            truth,
            measured,
            compared,
            band(measured, value),
            evidence.sex(),
            doubt);
  }

  private @Nullable ErrorBand band(Measured measured, double value) {
    MeasurementError error = entry.errorOf(measured);
    return error == null ? null : ErrorBand.of(error, new Quantity(value, unit), comparator, bound);
  }

  private Finding.@Nullable Reason doubt(Yardstick otherLeg) {
    return switch (otherLeg) {
      case SOUND -> null;
      case GRAFT_TAKEN -> usesOtherLeg() && aspect != Aspect.PRE_INJURY_CAPACITY ? DONOR_LEG : null;
      case OWN_HISTORY -> usesOtherLeg() ? OTHER_LEG : null;
    };
  }

  private boolean usesOtherLeg() {
    return switch (aspect) {
      case SYMMETRY, DIFFERENCE, PRE_INJURY_CAPACITY -> true;
      case OPERATED,
          OTHER,
          OPERATED_PER_MASS,
          OPERATED_PER_HEIGHT,
          OPERATED_PER_LIMB_LENGTH,
          OTHER_PER_LIMB_LENGTH,
          VALUE ->
          false;
    };
  }

  /** How far a value, as it is compared, lies beyond the bound. */
  Quantity margin(double compared) {
    return new Quantity(comparator.margin(compared, bound), unit);
  }

  /** In words, by how much a value, as it is compared, misses the bound. */
  String shortBy(double compared) {
    double margin = comparator.margin(compared, bound);
    return margin == 0
        ? "exactly at the cut-off; this set asks for " + comparator.words() + " " + bounding()
        : difference(-margin)
            + (comparator.upward() ? " short of the cut-off" : " over the cut-off");
  }

  /** Between two shares lie points: 5 % of 90 % would be 4.5. */
  private String difference(double between) {
    return new Quantity(between, unit.equals("%") ? "percentage points" : unit).toString();
  }

  private String bounding() {
    return new Quantity(bound, unit).toString();
  }

  /**
   * What would meet this criterion, for each way of testing of the newest day that falls short of
   * it: where the criterion leaves the way open, all of them have to meet it.
   */
  public List<ToMeetBy> shortfalls(Evidence evidence) {
    List<ToMeetBy> shortfalls = new ArrayList<>();
    if (newest(evidence) instanceof Lookup.Found found) {
      for (Measured measured : found.candidates()) {
        if (!comparator.test(comparable(number(measured)), bound)) {
          shortfalls.add(new ToMeetBy(measured, toMeet(measured)));
        }
      }
    }
    return shortfalls;
  }

  /**
   * What one way of testing would have to show.
   *
   * @param measured what it showed
   * @param toMeet what would meet the criterion
   */
  public record ToMeetBy(Measured measured, ToMeet toMeet) {}

  private double comparable(double value) {
    return entry.isQuestionnaire() ? CutOff.comparable(value, bound) : value;
  }

  /** What would meet it, everything else unchanged. */
  ToMeet toMeet(Measured measured) {
    Rescale rescale = measured.rescale();
    if (rescale == null || (rescale.inverse() && bound <= 0)) {
      return new ToMeet(
          () -> entry.measure().title() + ": " + comparator.words() + " " + bounding(),
          comparator,
          new Quantity(bound, unit),
          false,
          null);
    }
    Comparator asked = rescale.inverse() ? comparator.inverted() : comparator;
    Quantity needed = new Quantity(Decimals.exact(rescale.operatedAt(bound)), rescale.unit());
    return new ToMeet(
        () -> "operated leg needs " + asked.words() + " " + needed + now(measured),
        asked,
        needed,
        true,
        null);
  }

  private static String now(Measured measured) {
    return measured.inputs().isEmpty() ? "" : ", now " + measured.inputs().get(0).value();
  }

  private static double number(Measured measured) {
    if (measured.value() instanceof Value.Amount number) {
      return number.quantity().value();
    }
    throw new IllegalArgumentException(measured.measure() + " is not a number");
  }

  /** The unit in which an aspect of a measure is expressed. */
  public static String unitOf(Measure measure, Aspect aspect) {
    return switch (aspect) {
      case SYMMETRY,
          PRE_INJURY_CAPACITY,
          OPERATED_PER_HEIGHT,
          OPERATED_PER_LIMB_LENGTH,
          OTHER_PER_LIMB_LENGTH ->
          "%";
      case OPERATED_PER_MASS -> measure.unit() + "/kg";
      case OPERATED, OTHER, VALUE, DIFFERENCE -> measure.unit();
    };
  }
}

package evenside.criteria;

import evenside.knee.Yardstick;
import evenside.measure.Aspect;
import evenside.measure.Evidence;
import evenside.measure.Gap;
import evenside.measure.Lookup;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Measured;
import evenside.measure.ProtocolRule;
import evenside.measure.Rescale;
import evenside.measure.Value;
import evenside.quantity.Decimals;
import evenside.quantity.Quantity;
import evenside.questionnaire.CutOff;
import org.jspecify.annotations.Nullable;

/**
 * A number compared with a bound.
 *
 * @param about id, title, citation
 * @param measure code of the measure
 * @param aspect which number of it
 * @param rule which ways of testing count
 * @param comparator how it is compared, unrounded
 * @param bound in the unit given
 * @param unit UCUM code
 */
public record Threshold(
    About about,
    String measure,
    Aspect aspect,
    ProtocolRule rule,
    Comparator comparator,
    double bound,
    String unit)
    implements Criterion.Leaf {
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

  @Override
  public String type() {
    return "threshold";
  }

  @Override
  public Bound asked() {
    return new Bound(comparator, Value.Amount.of(bound, unit));
  }

  @Override
  public Finding judge(Evidence evidence, MeasureCatalogue catalogue, boolean required) {
    Lookup lookup = evidence.newest(measure, aspect, rule);
    return Judgement.onNewest(
        this,
        lookup,
        required,
        this::chosen,
        measured -> sound(measured, evidence, catalogue, required));
  }

  /** Comparing with a leg that is no sound yardstick cannot show that there is no deficit. */
  private Finding sound(
      Measured measured, Evidence evidence, MeasureCatalogue catalogue, boolean required) {
    Finding compared = compared(measured, evidence, catalogue, required);
    Finding.Reason doubt = doubt(evidence.otherLeg());
    return compared.truth() == Truth.MET && doubt != null
        ? Judgement.undetermined(this, required, measured.value(), measured.inputs(), doubt)
        : compared;
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

  private Measured chosen(java.util.List<Measured> candidates) {
    return Judgement.leastFavourable(candidates, comparator.upward(), Threshold::number);
  }

  private Finding compared(
      Measured measured, Evidence evidence, MeasureCatalogue catalogue, boolean required) {
    Measure entry = catalogue.get(measure);
    double value = number(measured);
    double comparable = comparable(value, entry);
    boolean met = comparator.test(comparable, bound);
    ErrorBand band =
        catalogue
            .errorOf(measure, aspect, measured.protocol(), measured.aggregation())
            .map(error -> ErrorBand.of(error, new Quantity(value, unit), comparator, bound))
            .orElse(null);
    return new Finding(
        about.id(),
        type(),
        about.title(),
        Truth.of(met),
        required,
        measured.value(),
        asked(),
        new Quantity(comparator.margin(comparable, bound), unit),
        met ? null : toMeet(measured, entry),
        band,
        catalogue.context(measure, aspect, measured.protocol(), evidence.sex()),
        measured.inputs(),
        met ? null : reason(comparable),
        about,
        java.util.List.of());
  }

  private Finding.Reason reason(double value) {
    return new Finding.Reason("short-of-bound", () -> shortBy(comparator.margin(value, bound)));
  }

  private String shortBy(double margin) {
    return margin == 0
        ? "exactly at the cut-off; this set asks for " + comparator.words() + " " + bounding()
        : new Quantity(-margin, unit)
            + (comparator.upward() ? " short of the cut-off" : " over the cut-off");
  }

  private String bounding() {
    return new Quantity(bound, unit).toString();
  }

  /**
   * What would meet this criterion, for each way of testing of the newest day that falls short of
   * it: where the criterion leaves the way open, all of them have to meet it.
   */
  public java.util.List<ToMeetBy> shortfalls(Evidence evidence, MeasureCatalogue catalogue) {
    if (!(evidence.newest(measure, aspect, rule) instanceof Lookup.Found found)) {
      return java.util.List.of();
    }
    Measure entry = catalogue.get(measure);
    return found.candidates().stream()
        .filter(measured -> !comparator.test(comparable(number(measured), entry), bound))
        .map(measured -> new ToMeetBy(measured, toMeet(measured, entry)))
        .toList();
  }

  /**
   * What one way of testing would have to show.
   *
   * @param measured what it showed
   * @param toMeet what would meet the criterion
   */
  public record ToMeetBy(Measured measured, ToMeet toMeet) {}

  private double comparable(double value, Measure entry) {
    return entry.family().equals("questionnaire") ? CutOff.comparable(value, bound) : value;
  }

  private ToMeet toMeet(Measured measured, Measure entry) {
    Rescale rescale = measured.rescale();
    if (rescale == null || (rescale.inverse() && bound <= 0)) {
      return new ToMeet(
          () -> entry.title() + ": " + comparator.words() + " " + bounding(),
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

package evenside.intake;

import evenside.limb.Side;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.quantity.Quantity;
import evenside.questionnaire.Instruments;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** What a battery's schema cannot say. */
final class BatteryRules {
  private static final Set<String> STRENGTH = Set.of("isokineticStrength", "isometricStrength");

  private static final String LANDING_SCORE = "landing-error-score";
  private static final String OTHER_VERSION = "landing-error-score-other-version";
  private static final int LANDING_MAXIMUM = 19;

  private final MeasureCatalogue catalogue;
  private final Instruments instruments;
  private final RuleFaults faults;
  private final RuleFaults warnings;

  BatteryRules(
      MeasureCatalogue catalogue, Instruments instruments, RuleFaults faults, RuleFaults warnings) {
    this.catalogue = catalogue;
    this.instruments = instruments;
    this.faults = faults;
    this.warnings = warnings;
  }

  /**
   * Checks one battery.
   *
   * @param operatedSide of the case, or null where the case is not known
   */
  void check(JsonNode json, @Nullable Side operatedSide, Instant now) {
    CommonRules.instant(json, "performedAt", now, faults);
    CommonRules.instant(json, "recordedAt", now, faults);
    CommonRules.extensions(json, faults);
    for (String member : List.of("bodyMass", "height", "limbLength", "shankLength", "results")) {
      CommonRules.precision(json.path(member), "/" + member, faults);
    }
    CommonRules.side(json, operatedSide, faults);
    for (Map.Entry<String, JsonNode> family : json.path("results").properties()) {
      if (family.getKey().equals("questionnaire")) {
        new SheetRules(catalogue, instruments, faults, warnings).check(family.getValue());
      } else {
        family(family.getKey(), family.getValue());
      }
    }
    new NotPerformedRules(instruments, faults).check(json.path("results"));
  }

  private void family(String family, JsonNode results) {
    Map<Object, String> seen = new HashMap<>();
    for (int i = 0; i < results.size(); i++) {
      String pointer = "/results/" + family + "/" + i;
      JsonNode result = results.path(i);
      if (!result.path("measure").isString()) {
        continue;
      }
      Optional<Measure> measure = catalogue.find(result.path("measure").asString(""));
      if (measure.isEmpty()) {
        faults.add(
            pointer + "/measure", RuleCode.MEASURE_UNKNOWN, "the catalogue has no such measure");
        continue;
      }
      if (family.equals("notPerformed")) {
        continue;
      }
      String first = seen.putIfAbsent(identity(family, result), pointer);
      if (first != null) {
        faults.add(
            pointer,
            RuleCode.RESULT_DUPLICATE,
            "this measure and side, tested the same way, stands at "
                + faults.named(first)
                + " already; send all trials of a test in one result");
      }
      if (belongs(measure.get(), family)) {
        values(result, pointer, measure.get());
        landingVersion(result, pointer);
        new JumpRules(faults, warnings).check(result, pointer, measure.get());
      }
      if (STRENGTH.contains(family) && !result.has("gravityCorrected")) {
        warnings.add(
            pointer + "/gravityCorrected",
            RuleCode.GRAVITY_NOT_STATED,
            "say whether the leg’s weight was corrected for; it changes extension and flexion in"
                + " opposite directions");
      }
    }
  }

  /** The schema has said so if not, and the values are of another measure than the one named. */
  private static boolean belongs(Measure measure, String family) {
    return measure.family().equals(family)
        || (STRENGTH.contains(measure.family()) && STRENGTH.contains(family));
  }

  /** A bound made for one version of the landing score would pass or fail another wrongly. */
  private void landingVersion(JsonNode result, String pointer) {
    JsonNode maximum = result.path("maximum");
    if (result.path("measure").asString("").equals(LANDING_SCORE)
        && maximum.isNumber()
        && maximum.asInt() != LANDING_MAXIMUM) {
      faults.add(
          pointer + "/maximum",
          RuleCode.MEASURE_OTHER_VERSION,
          "this measure is the version that goes to 19; send another as " + OTHER_VERSION,
          String.valueOf(LANDING_MAXIMUM));
    }
  }

  /** What makes two results the same: measure, side and way of testing. */
  private static Object identity(String family, JsonNode result) {
    return List.of(
        result.path("measure").asString(""),
        result.path("side").asString(""),
        BatteryReader.protocol(family, result));
  }

  private void values(JsonNode result, String pointer, Measure measure) {
    JsonNode trials = result.path("trials");
    double most = Math.min(measure.most(), result.path("maximum").asDouble(Double.MAX_VALUE));
    for (int i = 0; i < trials.size(); i++) {
      if (!CommonRules.invalid(trials.path(i))) {
        value(trials.path(i).path("value"), pointer + "/trials/" + i + "/value", measure, most);
      }
    }
    value(result.path("value"), pointer + "/value", measure, most);
  }

  private void value(JsonNode value, String pointer, Measure measure, double most) {
    if (value.isNumber() && (value.asDouble() < measure.least() || value.asDouble() > most)) {
      faults.add(
          pointer,
          RuleCode.VALUE_IMPLAUSIBLE,
          "outside the plausible range of " + measure.title(),
          Quantity.text(measure.least()) + " to " + new Quantity(most, measure.unit()));
    }
  }
}

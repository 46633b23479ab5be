package evenside.intake;

import evenside.hop.JumpHeight;
import evenside.hop.SideHop;
import evenside.measure.Measure;
import evenside.quantity.Quantity;
import tools.jackson.databind.JsonNode;

/** What the trials of hops and jumps must keep beyond their schema. */
final class JumpRules {
  private final RuleFaults faults;
  private final RuleFaults warnings;

  JumpRules(RuleFaults faults, RuleFaults warnings) {
    this.faults = faults;
    this.warnings = warnings;
  }

  void check(JsonNode result, String pointer, Measure measure) {
    JsonNode trials = result.path("trials");
    for (int i = 0; i < trials.size(); i++) {
      String at = pointer + "/trials/" + i;
      JsonNode trial = trials.path(i);
      if (trial.has("flightTime")) {
        flight(result, pointer, trial, at, measure);
      }
      if (trials.size() == 1 && trial.path("errors").isNumber()) {
        errors(trial, at);
      }
    }
  }

  private void flight(JsonNode result, String pointer, JsonNode trial, String at, Measure measure) {
    if (trial.has("value")) {
      faults.add(
          at + "/value",
          RuleCode.VALUE_GIVEN_TWICE,
          "the height follows from the flight time; send one of them");
    }
    if (result.path("method").isString()
        && !result.path("method").asString().equals("flight-time")) {
      faults.add(
          pointer + "/method",
          RuleCode.METHOD_CONTRADICTS_VALUE,
          "a trial gives its flight time",
          "flight-time");
    }
    JsonNode seconds = trial.path("flightTime").path("value");
    if (seconds.isNumber() && seconds.asDouble() > 0 && !CommonRules.invalid(trial)) {
      height(JumpHeight.fromFlightTime(seconds.asDouble()), at + "/flightTime/value", measure);
    }
  }

  private void height(double height, String at, Measure measure) {
    if (height < measure.least() || height > measure.most()) {
      faults.add(
          at,
          RuleCode.VALUE_IMPLAUSIBLE,
          "gives a height of " + Quantity.text(height) + " cm, outside the plausible range",
          Quantity.text(measure.least()) + " to " + new Quantity(measure.most(), measure.unit()));
    }
  }

  /** Only the first attempt calls for another. */
  private void errors(JsonNode trial, String at) {
    if (SideHop.needsSecondAttempt(
        trial.path("value").asDouble(0), trial.path("errors").asDouble())) {
      warnings.add(
          at + "/errors",
          RuleCode.ATTEMPT_MANY_ERRORS,
          "more than a quarter of the hops were errors; a second attempt follows after 3 min",
          "25 % of all hops");
    }
  }
}

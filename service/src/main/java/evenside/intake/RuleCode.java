package evenside.intake;

/**
 * The codes of what the rules between members find, as published in {@code
 * catalogue/fault-codes.json}. Those marked as warnings do not make a document invalid.
 */
public enum RuleCode {
  MEASURE_UNKNOWN("measure.unknown"),
  MEASURE_WRONG_FAMILY("measure.wrong-family"),
  MEASURE_OTHER_VERSION("measure.other-version"),
  VALUE_IMPLAUSIBLE("value.implausible"),
  VALUE_GIVEN_TWICE("value.given-twice"),
  METHOD_CONTRADICTS_VALUE("method.contradicts-value"),
  NUMBER_TOO_PRECISE("number.too-precise"),
  RESULT_DUPLICATE("result.duplicate"),
  NOT_PERFORMED_CONTRADICTS_RESULT("not-performed.contradicts-result"),
  SIDE_CONTRADICTS_CASE("side.contradicts-case"),
  GRAFT_NOT_HARVESTED("graft.not-harvested"),
  SIDE_CONTRADICTS_BATTERIES("side.contradicts-batteries"),
  TIME_INVALID("time.invalid"),
  TIME_IN_FUTURE("time.in-future"),
  DATE_IN_FUTURE("date.in-future"),
  DATE_BEFORE_SURGERY("date.before-surgery"),
  EXTENSION_NOT_UNDERSTOOD("extension.not-understood"),
  EXTENSION_TOO_LARGE("extension.too-large"),
  CRITERIA_SET_UNKNOWN("criteria-set.unknown"),
  CRITERIA_SET_DUPLICATE("criteria-set.duplicate"),
  CRITERIA_SET_OTHER_MILESTONE("criteria-set.other-milestone"),
  CRITERIA_SET_RESERVED("criteria-set.reserved"),
  MILESTONE_NO_USUAL_SET("milestone.no-usual-set"),
  REASON_REQUIRED("reason.required"),
  BATTERY_UNKNOWN("battery.unknown"),
  EXERCISE_UNKNOWN("exercise.unknown"),
  FOCUS_AREA_UNKNOWN("focus-area.unknown"),
  DATE_BEFORE_START("date.before-start"),
  SOURCE_UNKNOWN("source.unknown"),
  CRITERION_DUPLICATE("criterion.duplicate"),
  CRITERION_UNVERIFIED("criterion.unverified"),
  ASPECT_NOT_OFFERED("aspect.not-offered"),
  UNIT_NOT_OF_MEASURE("unit.not-of-measure"),
  COUNT_TOO_LARGE("count.too-large"),
  INSTRUMENT_UNKNOWN("instrument.unknown"),
  ITEM_UNKNOWN("item.unknown"),
  ITEM_DUPLICATE("item.duplicate"),
  ANSWER_NOT_ALLOWED("answer.not-allowed"),
  ANSWERS_NONE_SCORED("answers.none-scored"),
  MISSING_RULE_UNKNOWN("missing-rule.unknown"),
  SCORE_NOT_OF_INSTRUMENT("score.not-of-instrument"),
  SCORE_MISMATCH("score.mismatch"),
  EXERCISE_WRONG_FAMILY("exercise.wrong-family"),
  SIDE_MISSING("side.missing"),
  PROGRESSION_UNKNOWN("progression.unknown"),
  PROGRESSION_WRONG_FAMILY("progression.wrong-family"),
  LEVEL_UNKNOWN("level.unknown"),
  LEVEL_SKIPPED("level.skipped"),
  NEXT_MORNING_BEFORE_SESSION("next-morning.before-session"),
  SESSION_UNKNOWN("session.unknown"),
  SESSION_NOT_TRAINING("session.not-training"),
  CLEARANCE_BEFORE_ENTRY("clearance.before-entry"),
  RANGE_REVERSED("range.reversed"),
  FACT_INCOMPLETE("fact.incomplete"),
  SIDES_NOT_COMPARED("sides.not-compared"),
  BATTERY_BEFORE_SURGERY("battery.before-surgery"),
  SYMMETRY_UNUSUAL("symmetry.unusual"),
  ATTEMPT_MANY_ERRORS("attempt.many-errors"),
  GRAVITY_NOT_STATED("gravity.not-stated"),
  ANSWER_FLAGGED("answer.flagged"),
  SESSION_NOT_HERE_YET("session.not-here-yet"),
  LEVEL_AHEAD_OF_RECORD("level.ahead-of-record"),
  NEXT_MORNING_LATE("next-morning.late"),
  THERAPIST_NOT_PRESENT("therapist.not-present"),
  RED_FLAGS_UNANSWERED("red-flags.unanswered");

  private final String code;

  RuleCode(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}

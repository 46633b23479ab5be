package evenside.measure;

import java.time.Instant;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * A number that a battery should have given and could not, and why.
 *
 * @param measure code of the measure
 * @param aspect the number that is missing; null means every number of the measure
 * @param reason why
 * @param detail in words
 * @param protocol how it was tested, as far as known
 * @param performedAt instant of the battery
 * @param performedOn day of the battery at the clinic
 */
public record Gap(
    String measure,
    @Nullable Aspect aspect,
    Reason reason,
    String detail,
    Protocol protocol,
    Instant performedAt,
    LocalDate performedOn) {

  /** True if the test was meant to be done and was not. */
  public boolean isNotPerformed() {
    return reason == Reason.NOT_PERFORMED;
  }

  /** Why a number is missing. */
  public enum Reason {
    /** No battery holds the test. */
    NOT_TESTED("not-tested"),
    /** The test was meant to be done and was not. */
    NOT_PERFORMED("not-performed"),
    /** The newest result is older than allowed. */
    TOO_OLD("too-old"),
    OPERATED_SIDE_NOT_TESTED("operated-side-not-tested"),
    OTHER_SIDE_NOT_TESTED("other-side-not-tested"),
    /** The legs were tested in different ways. */
    TESTED_DIFFERENTLY("tested-differently"),
    /** The test was done, but not in a way this criterion accepts. */
    OTHER_PROTOCOL("other-protocol"),
    /** The denominator is zero. */
    ZERO_VALUE("zero-value"),
    BODY_MASS_MISSING("body-mass-missing"),
    HEIGHT_MISSING("height-missing"),
    LIMB_LENGTH_MISSING("limb-length-missing"),
    /** Too few items of the questionnaire were answered. */
    NOT_SCORABLE("not-scorable"),
    /** Estimated pre-injury capacity needs the other leg's value from before surgery. */
    NO_PREOPERATIVE_VALUE("no-preoperative-value"),
    /** Symmetry with a leg that has a history of its own cannot show that there is no deficit. */
    OTHER_KNEE_NOT_SOUND("other-knee-not-sound"),
    /** Symmetry with the leg the graft was taken from cannot show that there is no deficit. */
    GRAFT_FROM_OTHER_LEG("graft-from-other-leg"),
    /** The bound depends on sex, which the case does not state. */
    SEX_NOT_STATED("sex-not-stated"),
    /** The training record does not show it, or not for certain. */
    NOT_RECORDED("not-recorded");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }
  }
}

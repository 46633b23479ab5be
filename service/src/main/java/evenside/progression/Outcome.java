package evenside.progression;

import java.util.Collection;
import java.util.Comparator;

/** What the rules say about the next session, the most cautious first. */
public enum Outcome {
  STOP_AND_REFER("stop-and-refer"),
  STEP_BACK("step-back"),
  REPEAT_AFTER_REST("repeat-after-rest"),
  HOLD("hold"),
  INSUFFICIENT_DATA("insufficient-data"),
  ADVANCE("advance");

  private final String code;

  Outcome(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /**
   * The outcome with this code.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Outcome of(String code) {
    for (Outcome outcome : values()) {
      if (outcome.code.equals(code)) {
        return outcome;
      }
    }
    throw new IllegalArgumentException("outcome " + code + " is not known");
  }

  /** The most cautious of several; where there is none, nothing is known. */
  public static Outcome mostCautious(Collection<Outcome> outcomes) {
    return outcomes.stream().min(Comparator.naturalOrder()).orElse(INSUFFICIENT_DATA);
  }
}

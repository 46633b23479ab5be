package evenside.progression;

import evenside.criteria.Truth;
import org.jspecify.annotations.Nullable;

/**
 * What follows from a condition.
 *
 * @param id unique in its set
 * @param when the condition
 * @param outcome what follows
 * @param aboutKnee true if it holds for everything trained, false for one piece of work alone
 * @param levels levels to go, negative is back
 * @param restDays full days without that training
 * @param urgency how soon the person should be seen, or null
 * @param review true if a clinician should look at it
 * @param change how the dose changes, or null
 * @param text in words
 * @param source citation with its place, or null
 * @param mark how the rule is known
 */
public record Rule(
    String id,
    Condition when,
    Outcome outcome,
    boolean aboutKnee,
    int levels,
    int restDays,
    @Nullable Urgency urgency,
    boolean review,
    @Nullable Change change,
    String text,
    @Nullable String source,
    String mark) {

  Truth on(Inputs inputs) {
    return when.on(inputs);
  }

  /**
   * How a dose changes.
   *
   * @param of load, hold, contacts or sets
   * @param least smallest change
   * @param most largest change
   * @param unit UCUM code
   */
  public record Change(String of, double least, double most, String unit) {}

  /** How soon a person should be seen, the soonest first. */
  public enum Urgency {
    EMERGENCY("emergency"),
    SAME_DAY("same-day"),
    WITHIN_48_HOURS("within-48-hours");

    private final String code;

    Urgency(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }

    /**
     * The urgency with this code.
     *
     * @throws IllegalArgumentException if there is none
     */
    public static Urgency of(String code) {
      for (Urgency urgency : values()) {
        if (urgency.code.equals(code)) {
          return urgency;
        }
      }
      throw new IllegalArgumentException("urgency " + code + " is not known");
    }
  }
}

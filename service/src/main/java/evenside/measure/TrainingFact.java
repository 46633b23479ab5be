package evenside.measure;

import java.time.LocalDate;
import java.util.List;

/**
 * A fact worked out from the training record.
 *
 * @param fact which fact
 * @param of code of the progression or programme it is about, or empty
 * @param certain what the record shows for certain
 * @param possible what it could be once everything were known
 * @param unit UCUM code
 * @param uses entries it comes from
 */
public record TrainingFact(
    String fact, String of, double certain, double possible, String unit, List<Use> uses) {
  public static final String RUNNING_LEVEL = "running-level-completed";
  public static final String PAIN_FREE_SESSIONS = "pain-free-sessions-in-a-row";
  public static final String DAYS_WITHOUT_STEP_BACK = "days-without-step-back";
  public static final String PROGRAMME_COMPLETED = "programme-completed";

  /** How many entries call for a stop that no clinician has cleared; for cautions, no criterion. */
  public static final String STANDING_RED_FLAG = "standing-red-flag";

  public TrainingFact {
    uses = List.copyOf(uses);
  }

  public boolean isExact() {
    return certain == possible;
  }

  /** True for a fact about a progression or programme, which must be named. */
  public static boolean isAboutOne(String fact) {
    return fact.equals(RUNNING_LEVEL) || fact.equals(PROGRAMME_COMPLETED);
  }

  /** The unit of a fact. */
  public static String unitOf(String fact) {
    return switch (fact) {
      case RUNNING_LEVEL -> "{level}";
      case PAIN_FREE_SESSIONS -> "{sessions}";
      case DAYS_WITHOUT_STEP_BACK -> "d";
      case PROGRAMME_COMPLETED -> "1";
      default -> throw new IllegalArgumentException("training fact " + fact + " is not known");
    };
  }

  /**
   * An entry a fact comes from.
   *
   * @param session identifier of the entry, or its place in a request
   * @param performedOn its day
   */
  public record Use(String session, LocalDate performedOn) {}
}

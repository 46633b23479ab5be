package evenside.training;

/**
 * An exercise of the catalogue.
 *
 * @param code its code
 * @param title name in the trade's words
 * @param family member of a session's work it is sent in
 * @param legs whether it is done one leg at a time
 * @param supervision {@code none}, {@code therapist} or {@code partner}
 */
public record Exercise(String code, String title, String family, Legs legs, String supervision) {

  /** Whether an exercise is done one leg at a time. */
  public enum Legs {
    BOTH,
    SINGLE,
    NONE
  }

  public boolean isAlone() {
    return supervision.equals("none");
  }
}

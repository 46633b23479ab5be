package evenside.cohort;

/**
 * How many people have which outcome on one criterion, or on a set as a whole.
 *
 * @param criterion id of the criterion
 * @param title what is asked
 * @param required false if shown for information only
 * @param met people who met it
 * @param notMet people who did not
 * @param undetermined people without a usable result
 * @param notApplicable people the bound is not for
 * @param alone people for whom it is the only required criterion that is not met
 */
public record Tally(
    String criterion,
    String title,
    boolean required,
    int met,
    int notMet,
    int undetermined,
    int notApplicable,
    int alone) {

  /** People with a result. */
  public int tested() {
    return met + notMet;
  }
}

package evenside.store;

/**
 * What a decision found on one criterion, or on the whole set.
 *
 * @param criterion id of the criterion, or {@link #WHOLE_SET}
 * @param outcome code of the outcome
 * @param required false if shown for information only
 * @param alone true if it is the one required criterion that is not met
 */
public record FindingRow(String criterion, String outcome, boolean required, boolean alone) {
  /** Stands for the set as a whole; no criterion can be called so. */
  public static final String WHOLE_SET = "*";
}

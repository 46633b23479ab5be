package evenside.cohort;

/**
 * What clinicians determined on the decisions of a cohort.
 *
 * @param agreeing people whose determination says what the outcome says
 * @param cleared people cleared although the criteria were not met
 * @param otherwise people with another determination that differs from the outcome
 */
public record Determined(int agreeing, int cleared, int otherwise) {

  /** People with a determination. */
  public int all() {
    return agreeing + cleared + otherwise;
  }
}

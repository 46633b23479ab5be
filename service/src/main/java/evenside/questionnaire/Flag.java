package evenside.questionnaire;

/**
 * An answer that a clinician may want to look at: information, never a diagnosis.
 *
 * @param code of the flag
 * @param item number of the item
 * @param atMost flagged at this scored answer or below
 * @param text what is said to the reader
 */
public record Flag(String code, String item, double atMost, String text) {}

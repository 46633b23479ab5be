package evenside.battery;

import evenside.questionnaire.Sheet;

/**
 * A questionnaire that was filled in.
 *
 * @param pointer JSON Pointer inside the battery
 * @param sheet answers and reported scores
 */
public record FilledIn(String pointer, Sheet sheet) {}

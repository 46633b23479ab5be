package evenside.store.cohort;

import java.time.LocalDate;

/**
 * What a cohort is chosen by.
 *
 * @param sex code
 * @param birthYear calendar year
 * @param graft code
 * @param surgeryDate day of the surgery
 */
public record CaseFacts(String sex, int birthYear, String graft, LocalDate surgeryDate) {}

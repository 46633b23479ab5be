package evenside.store.evidence;

import java.time.LocalDate;

/**
 * The number that a row of evidence stands for.
 *
 * @param amount the number
 * @param unit its unit
 * @param way all of how it was tested, as text; numbers are comparable where it is equal
 * @param performedOn the day of the test on the clinic's calendar
 */
public record FiledNumber(double amount, String unit, String way, LocalDate performedOn) {}

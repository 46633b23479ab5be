package evenside.plan;

/**
 * An exercise of the catalogue, as far as a plan shows it.
 *
 * @param code code
 * @param title in the trade's words
 * @param family member of a session's work it is sent in
 * @param phase code of the phase it usually begins in
 * @param usualDose usual dose in words
 * @param therapist true if a therapist is present
 * @param mark how the entry is known
 */
public record Exercise(
    String code,
    String title,
    String family,
    String phase,
    String usualDose,
    boolean therapist,
    String mark) {}

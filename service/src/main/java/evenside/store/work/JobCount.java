package evenside.store.work;

/**
 * How far a job is.
 *
 * @param waiting lines not done yet
 * @param stored lines that recorded something, or had before
 * @param refused lines that did not
 */
public record JobCount(int waiting, int stored, int refused) {}

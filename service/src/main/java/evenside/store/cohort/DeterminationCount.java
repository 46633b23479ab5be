package evenside.store.cohort;

/**
 * How many people have a determination.
 *
 * @param statement what the clinician stated
 * @param differs whether it says other than the outcome
 * @param people how many
 */
public record DeterminationCount(String statement, boolean differs, int people) {}

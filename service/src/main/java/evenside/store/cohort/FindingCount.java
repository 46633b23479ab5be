package evenside.store.cohort;

/**
 * How many people have an outcome on a criterion.
 *
 * @param row the criterion and outcome
 * @param people how many
 */
public record FindingCount(FindingRow row, int people) {}

package evenside.ledger;

import java.util.Optional;

/**
 * What came of work that was recorded with entries in the ledger.
 *
 * @param result what the work answered
 * @param receipt of the last entry it added; empty if the ledger is off, or it added none
 * @param <T> what the work answers
 */
public record Appended<T>(T result, Optional<Receipt> receipt) {}

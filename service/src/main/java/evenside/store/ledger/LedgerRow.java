package evenside.store.ledger;

import java.time.Instant;

/**
 * One ledger of a clinic.
 *
 * @param clinic the clinic
 * @param number 1 for its first
 * @param origin its name to the world
 * @param startedAt when
 */
public record LedgerRow(String clinic, int number, String origin, Instant startedAt) {}

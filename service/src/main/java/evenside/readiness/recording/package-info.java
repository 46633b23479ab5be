/**
 * How something is recorded, or refused: once for each idempotency key, on the case as it was
 * looked at, with its entry in the ledger.
 */
@NullMarked
package evenside.readiness.recording;

import org.jspecify.annotations.NullMarked;

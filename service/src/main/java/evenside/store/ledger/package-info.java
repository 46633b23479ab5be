/** Rows of the ledgers: entries, signed checkpoints, keys, salts and criteria sets. */
@NullMarked
package evenside.store.ledger;

import org.jspecify.annotations.NullMarked;

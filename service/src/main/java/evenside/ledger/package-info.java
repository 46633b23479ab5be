/**
 * The record that can be proved: an append-only Merkle log per clinic, of 138-byte entries that
 * hold no more than hashes. Documents stay outside, so that they can be erased and the log stays
 * whole.
 *
 * <p>Without storage: {@link evenside.ledger.Entry}, {@link evenside.ledger.Commitment}, {@link
 * evenside.ledger.TlogProof}. With the store: {@link evenside.ledger.Ledger} grows it, {@link
 * evenside.ledger.Proofs} proves it.
 */
@NullMarked
package evenside.ledger;

import org.jspecify.annotations.NullMarked;

/**
 * The Merkle tree of RFC 6962 and RFC 9162, without storage: {@link evenside.merkle.Frontier} grows
 * it, {@link evenside.merkle.InclusionProof} proves that an entry is in it, {@link
 * evenside.merkle.ConsistencyProof} that a larger tree extends a smaller one.
 *
 * <p>One structure and no other: a home-made hybrid of tree and chain is where others have failed.
 */
@NullMarked
package evenside.merkle;

import org.jspecify.annotations.NullMarked;

/**
 * What follows from the published contract and what is given, without clock, store or ledger:
 * scores, decisions, advice.
 */
@NullMarked
package evenside.readiness.computing;

import org.jspecify.annotations.NullMarked;

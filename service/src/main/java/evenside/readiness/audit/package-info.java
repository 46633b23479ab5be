/** What auditors ask years later: proof, replays and what differs, who read, the ledger. */
@NullMarked
package evenside.readiness.audit;

import org.jspecify.annotations.NullMarked;

/**
 * The proof of one past decision in one file, and its check offline: {@link
 * evenside.evidence.Bundle}, {@link evenside.evidence.BundleVerifier}. Needs no store and no
 * network.
 */
@NullMarked
package evenside.evidence;

import org.jspecify.annotations.NullMarked;

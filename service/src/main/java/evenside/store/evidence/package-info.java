/** What the batteries of a case are evidence for, found by measure and time. */
@NullMarked
package evenside.store.evidence;

import org.jspecify.annotations.NullMarked;

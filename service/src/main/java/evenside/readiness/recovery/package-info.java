/** Where a case stands, how it got there, and the plans adopted for what is missing. */
@NullMarked
package evenside.readiness.recovery;

import org.jspecify.annotations.NullMarked;

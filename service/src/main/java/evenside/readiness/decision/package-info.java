/**
 * Deciding by published and own criteria sets, on what was recorded, and what clinicians said on
 * decisions.
 */
@NullMarked
package evenside.readiness.decision;

import org.jspecify.annotations.NullMarked;

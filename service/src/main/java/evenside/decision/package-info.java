/**
 * A criteria set and evidence become a {@link evenside.decision.Decision} with every finding and
 * the cautions that travel with it. Pure: no clock, no store.
 */
@NullMarked
package evenside.decision;

import org.jspecify.annotations.NullMarked;

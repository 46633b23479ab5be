/** The case: one reconstructed knee of one person, {@link evenside.knee.KneeCase}. */
@NullMarked
package evenside.knee;

import org.jspecify.annotations.NullMarked;

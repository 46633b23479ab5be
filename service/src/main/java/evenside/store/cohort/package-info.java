/** Counts over the cases of a clinic, and the rows they are counted from. */
@NullMarked
package evenside.store.cohort;

import org.jspecify.annotations.NullMarked;

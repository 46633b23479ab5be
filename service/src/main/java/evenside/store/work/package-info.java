/**
 * What is still to be done and is no record, so that its rows are changed and removed: lines of
 * jobs, and what receivers are to be told.
 */
@NullMarked
package evenside.store.work;

import org.jspecify.annotations.NullMarked;

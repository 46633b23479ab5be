/** The training record of a case, and the advice on what comes next. */
@NullMarked
package evenside.readiness.training;

import org.jspecify.annotations.NullMarked;

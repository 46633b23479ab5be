/**
 * How much was trained, in numbers. Context for a clinician, never a reason for an outcome: the
 * figures come from healthy athletes. A day without any entry is not known; it is not zero. {@link
 * evenside.load.LoadReport} gathers what one history gives.
 */
@NullMarked
package evenside.load;

import org.jspecify.annotations.NullMarked;

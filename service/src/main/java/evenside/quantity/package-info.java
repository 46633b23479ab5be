/**
 * Numbers with a unit, how derived numbers are held so that decimals compare as decimals, and the
 * one distribution that is needed: {@link evenside.quantity.StudentT}.
 */
@NullMarked
package evenside.quantity;

import org.jspecify.annotations.NullMarked;

/** Numbers with a unit, and how derived numbers are held so that decimals compare as decimals. */
@NullMarked
package evenside.quantity;

import org.jspecify.annotations.NullMarked;

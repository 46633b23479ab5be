/** Numbers with a unit. */
@NullMarked
package evenside.quantity;

import org.jspecify.annotations.NullMarked;

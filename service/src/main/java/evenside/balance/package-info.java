/** Reaches on one leg: {@link evenside.balance.YBalance}. */
@NullMarked
package evenside.balance;

import org.jspecify.annotations.NullMarked;

/** Rows of the keys of client programs. */
@NullMarked
package evenside.store.clients;

import org.jspecify.annotations.NullMarked;

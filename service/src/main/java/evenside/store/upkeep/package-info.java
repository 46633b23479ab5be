/** What is done with a whole store: a copy in a file, and moving it to another database. */
@NullMarked
package evenside.store.upkeep;

import org.jspecify.annotations.NullMarked;

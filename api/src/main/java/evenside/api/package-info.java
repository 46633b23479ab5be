/** The table of routes, and what is put together when the service starts. */
@NullMarked
package evenside.api;

import org.jspecify.annotations.NullMarked;

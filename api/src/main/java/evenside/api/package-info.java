/** HTTP, command line and pages. */
@NullMarked
package evenside.api;

import org.jspecify.annotations.NullMarked;

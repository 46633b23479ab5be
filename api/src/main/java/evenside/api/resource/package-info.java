/** One thin class per resource: read the call, ask the service once, make the reply. */
@NullMarked
package evenside.api.resource;

import org.jspecify.annotations.NullMarked;

/**
 * Which trace a request belongs to: {@link evenside.api.trace.TraceContext}, as the W3C describes
 * it.
 */
@NullMarked
package evenside.api.trace;

import org.jspecify.annotations.NullMarked;

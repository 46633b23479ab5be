/**
 * The use cases the outer world calls: {@link evenside.readiness.ReadinessService}.
 */
@NullMarked
package evenside.readiness;

import org.jspecify.annotations.NullMarked;

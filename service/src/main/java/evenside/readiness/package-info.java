/** The use cases the outer world calls: ReadinessService. */
@NullMarked
package evenside.readiness;

import org.jspecify.annotations.NullMarked;

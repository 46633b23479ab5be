/**
 * Numbers about the running service, for Prometheus: {@link evenside.api.metrics.Metrics}. No label
 * ever holds an id, a clinic, a client or a code.
 */
@NullMarked
package evenside.api.metrics;

import org.jspecify.annotations.NullMarked;

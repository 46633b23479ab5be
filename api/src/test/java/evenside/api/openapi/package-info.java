/**
 * Reads {@code openapi.yaml} and holds it to the published files, the routes and every live reply.
 */
@NullMarked
package evenside.api.openapi;

import org.jspecify.annotations.NullMarked;

/**
 * Records become documents: canonical JSON bytes (RFC 8785), the form in which everything is
 * stored, served and hashed.
 */
@NullMarked
package evenside.document;

import org.jspecify.annotations.NullMarked;

/**
 * Records become documents: canonical JSON bytes (RFC 8785), the form in which everything is
 * stored, served and hashed. What is computed goes straight through {@link
 * evenside.document.CanonicalWriter}; a tree that came in, through {@link
 * evenside.document.CanonicalJson}. Each kind of computed answer has one class here that writes it.
 */
@NullMarked
package evenside.document;

import org.jspecify.annotations.NullMarked;

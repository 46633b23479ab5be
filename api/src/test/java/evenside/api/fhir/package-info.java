/** Every resource against the official definitions, and every code against the published list. */
@NullMarked
package evenside.api.fhir;

import org.jspecify.annotations.NullMarked;

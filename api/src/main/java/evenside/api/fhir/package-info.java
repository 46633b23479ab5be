/**
 * Our documents as HL7 FHIR R4 (4.0.1) resources, and Observations as a battery.
 *
 * <p>Pure functions from stored JSON to JSON: no number is computed here and nothing is looked up.
 * {@link evenside.api.fhir.Codes} is the only source of codes, {@link evenside.api.fhir.Fhir} of
 * elements. Each other class makes the resources of one kind of document; {@link
 * evenside.api.fhir.ObservationImport} goes the other way.
 *
 * <p>Source: HL7 FHIR R4, hl7.org/fhir/R4. No profile of our own: base-valid resources and local
 * code systems.
 */
@NullMarked
package evenside.api.fhir;

import org.jspecify.annotations.NullMarked;

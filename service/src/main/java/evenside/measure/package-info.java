/**
 * The catalogue of measures and what was measured: {@link evenside.measure.Measure} says how a
 * number is to be read, {@link evenside.measure.Protocol} how it was tested, {@link
 * evenside.measure.Measured} what was seen, {@link evenside.measure.Evidence} all that a decision
 * may look at, {@link evenside.measure.MeasurementError} how far a test may be off, {@link
 * evenside.measure.ReferenceValue} how other people are.
 */
@NullMarked
package evenside.measure;

import org.jspecify.annotations.NullMarked;

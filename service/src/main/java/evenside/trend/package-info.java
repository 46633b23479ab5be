/**
 * Numbers over time, against their measurement error: {@link evenside.trend.Line} is a fitted
 * straight line, {@link evenside.trend.Projection} the day on which it would reach a bound or why
 * that cannot be said, {@link evenside.trend.Change} a difference between two readings, {@link
 * evenside.trend.Slope} the change per week over all readings. Pure: no clock, no store.
 */
@NullMarked
package evenside.trend;

import org.jspecify.annotations.NullMarked;

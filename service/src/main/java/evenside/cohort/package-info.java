/**
 * The clinic's own numbers: {@link evenside.cohort.Share} with its interval, {@link
 * evenside.cohort.SurvivalCurve} for the time to a milestone, {@link evenside.cohort.Cells} that
 * hide what would point at few people. Pure: no clock, no store.
 */
@NullMarked
package evenside.cohort;

import org.jspecify.annotations.NullMarked;

/**
 * What is still missing and how it may be gained: {@link evenside.plan.Outlook} projects criteria,
 * {@link evenside.plan.Planner} proposes a {@link evenside.plan.Plan} from a decision, the series
 * and the published {@link evenside.plan.FocusAreas}. A clinician adopts or edits it. Pure.
 */
@NullMarked
package evenside.plan;

import org.jspecify.annotations.NullMarked;

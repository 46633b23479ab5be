/**
 * From a battery to evidence; the only package that knows all kinds of results together. Start at
 * {@link evenside.assessment.Assessor}.
 */
@NullMarked
package evenside.assessment;

import org.jspecify.annotations.NullMarked;

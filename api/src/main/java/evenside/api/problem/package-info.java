/**
 * Why a request failed: {@link evenside.api.problem.ProblemType} names the kinds, {@link
 * evenside.api.problem.Problem} is one occurrence (RFC 9457), {@link evenside.api.problem.Problems}
 * turns every failure into one.
 */
@NullMarked
package evenside.api.problem;

import org.jspecify.annotations.NullMarked;

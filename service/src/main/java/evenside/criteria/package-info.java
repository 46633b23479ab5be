/**
 * Criteria as data: {@link evenside.criteria.CriteriaSet} is a tree of {@link
 * evenside.criteria.Criterion}; each is evaluated against evidence to a {@link
 * evenside.criteria.Finding} in three-valued {@link evenside.criteria.Truth}. Knows measures, never
 * hops.
 */
@NullMarked
package evenside.criteria;

import org.jspecify.annotations.NullMarked;

/**
 * The decision sheet: {@link evenside.api.page.decision.DecisionSheet} from a decision as recorded,
 * one {@link evenside.api.page.decision.Criterion} per finding. Numbers are taken from the document
 * and only written out here.
 */
@org.jspecify.annotations.NullMarked
package evenside.api.page.decision;

/**
 * Scores of questionnaires from answers by item number; no wording of any item is known here.
 *
 * <p>An {@link evenside.questionnaire.Instrument} is data: items, {@link
 * evenside.questionnaire.Formula formulas}, {@link evenside.questionnaire.MissingRule rules for
 * missing items}. A {@link evenside.questionnaire.Sheet} is one filled-in questionnaire and gives
 * an {@link evenside.questionnaire.Outcome} per score. {@link evenside.questionnaire.CutOff} says
 * how a score meets a published cut-off.
 */
@NullMarked
package evenside.questionnaire;

import org.jspecify.annotations.NullMarked;

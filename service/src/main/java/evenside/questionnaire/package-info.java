/** How questionnaire scores are compared with a published cut-off. */
@NullMarked
package evenside.questionnaire;

import org.jspecify.annotations.NullMarked;

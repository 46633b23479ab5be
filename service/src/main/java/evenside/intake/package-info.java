/**
 * Validated JSON becomes records; JSON is read nowhere else. Also the rules between members that a
 * schema cannot say.
 */
@NullMarked
package evenside.intake;

import org.jspecify.annotations.NullMarked;

/**
 * Validated JSON becomes records, so that no package that calculates knows JSON. Also the rules
 * between members that a schema cannot say.
 */
@NullMarked
package evenside.intake;

import org.jspecify.annotations.NullMarked;

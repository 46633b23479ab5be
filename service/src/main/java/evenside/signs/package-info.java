/** Clinical signs graded by hand: {@link evenside.signs.EffusionGrade}. */
@NullMarked
package evenside.signs;

import org.jspecify.annotations.NullMarked;

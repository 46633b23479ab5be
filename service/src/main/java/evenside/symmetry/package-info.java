/** How the two legs compare: {@link evenside.symmetry.LimbSymmetry}. */
@NullMarked
package evenside.symmetry;

import org.jspecify.annotations.NullMarked;

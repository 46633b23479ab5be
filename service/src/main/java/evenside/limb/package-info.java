/**
 * Left and right, operated and other: {@link evenside.limb.Side} and {@link
 * evenside.limb.LimbPair}.
 */
@NullMarked
package evenside.limb;

import org.jspecify.annotations.NullMarked;

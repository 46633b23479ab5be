/**
 * How the two legs compare: {@link evenside.symmetry.LimbSymmetry} decides, {@link
 * evenside.symmetry.SymmetryIndex} holds every other published index, {@link
 * evenside.symmetry.RatioInterval} says how far a ratio may be off.
 */
@NullMarked
package evenside.symmetry;

import org.jspecify.annotations.NullMarked;

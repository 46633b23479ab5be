/**
 * Hops and jumps: {@link evenside.hop.JumpHeight} from the time in the air, {@link
 * evenside.hop.ReactiveStrength} in its two definitions, {@link evenside.hop.SideHop} and its rule
 * for a second attempt.
 */
@NullMarked
package evenside.hop;

import org.jspecify.annotations.NullMarked;

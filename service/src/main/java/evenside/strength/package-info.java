/**
 * Numbers made from torque: {@link evenside.strength.Strength} per body mass and from force, {@link
 * evenside.strength.HamstringQuadriceps} in its published definitions, {@link
 * evenside.strength.Consistency} of the repetitions.
 */
@NullMarked
package evenside.strength;

import org.jspecify.annotations.NullMarked;

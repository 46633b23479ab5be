/** Numbers made from torque: per body mass, hamstring to quadriceps. */
@NullMarked
package evenside.strength;

import org.jspecify.annotations.NullMarked;

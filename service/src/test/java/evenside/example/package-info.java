/**
 * Invented people and test days for tests: {@link evenside.example.TestDay} writes a battery as a
 * clinic would send it, {@link evenside.example.Clinic} asks the published criteria sets about it.
 */
@NullMarked
package evenside.example;

import org.jspecify.annotations.NullMarked;

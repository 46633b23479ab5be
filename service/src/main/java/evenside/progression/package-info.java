/**
 * What comes next in training. {@link evenside.progression.History} is the record in order of time,
 * {@link evenside.progression.Progression} a set of rules as data, {@link
 * evenside.progression.Advisor} holds one against the other and gives {@link
 * evenside.progression.Advice}. Pure: a function of the set of entries, whatever order they came
 * in; no clock, no store.
 */
@NullMarked
package evenside.progression;

import org.jspecify.annotations.NullMarked;

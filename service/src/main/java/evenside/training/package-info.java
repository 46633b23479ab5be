/**
 * The training record: {@link evenside.training.Session} is one entry, {@link
 * evenside.training.Entry} what it says, {@link evenside.training.Exercise} what can be trained.
 */
@NullMarked
package evenside.training;

import org.jspecify.annotations.NullMarked;
